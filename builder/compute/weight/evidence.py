"""Gaps of readings, brought together by least squares: what they say of any sum of parts, and whether they contradict each other."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from math import fsum, sqrt

from builder.compute.figures.figure import Figure, apply, constant
from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.slopes import reconciled_mass_partials
from builder.compute.figures.sums import total
from builder.compute.formulas.uncertainty.reconciling import chance_of_chi_square, reconciled_mass
from builder.compute.weight.least_squares import inverse
from builder.compute.weight.reconcile import ScaleReading
from builder.load.assumed import assumed

SOUND = assumed("weight and size/contradiction")
_TAKES_PART = assumed("weight and size/takes-part")
_DUST = 1e-8  # kg: no reading is believed more than to ten micrograms


def covariance(a: Figure, b: Figure) -> float:
    """Covariance of two figures by the leaves that they share, first order."""
    mine, theirs, leaves = a.slopes, b.slopes, a.leaves
    return fsum(s * theirs[k] * leaves[k].own ** 2 for k, s in mine.items() if k in theirs)


@dataclass(frozen=True, eq=False)
class Evidence:
    """Gaps of readings, what is expected beyond the parts, and a leaf for each row that nobody
    weighed, by the row's key.

    `own` says of each gap which reading of the build it is of, -1 for one of a base. `of_another`
    is what was weighed of another aircraft after the same sheet: this one has pieces of its own.
    """

    gaps: tuple[Figure, ...]
    own: tuple[int, ...]
    beyond: Figure
    unweighed: Mapping[str, Figure]
    of_another: bool = False

    @cached_property
    def _inverse(self) -> tuple[tuple[float, ...], ...]:
        rows = [[covariance(a, b) for b in self.gaps] for a in self.gaps]
        for i, row in enumerate(rows):
            row[i] += _DUST**2
        return inverse(rows)

    def _through(self, values: Sequence[float]) -> tuple[float, ...]:
        """Values by gap, through the inverse of the gaps' covariances."""
        return tuple(fsum(a * v for a, v in zip(row, values, strict=True)) for row in self._inverse)

    def weights(self, figure: Figure) -> tuple[float, ...]:
        """What of each gap belongs to a figure, by least squares."""
        return tuple(-w for w in self._through([covariance(figure, g) for g in self.gaps]))

    def reconciled(self, key: str, label: str, expected: Figure) -> Figure:
        """A mass by its parts, brought together with the readings; as it is where there are none."""
        if not self.gaps:
            return total(key, label, "kg", [expected])
        inputs: list[Figure] = []
        for i, (w, gap) in enumerate(zip(self.weights(expected), self.gaps, strict=True)):
            about = f"Share of gap {i + 1} that is of: {label}"
            inputs += [constant(f"{key}/share-{i + 1}", about, w, "1"), gap]
        how = formula(reconciled_mass, reconciled_mass_partials)
        note = "parts and readings of the scale by least squares"
        made = apply(key, label, how, expected, *inputs, note=note)
        return replace(made, lacks=expected.lacks) if isinstance(made, Figure) else expected

    @cached_property
    def chance(self) -> float:
        """How often sound readings would lie so far from each other and from the parts."""
        if not self.gaps:
            return 1.0
        values = [g.value for g in self.gaps]
        square = fsum(v * w for v, w in zip(values, self._through(values), strict=True))
        return chance_of_chi_square(max(0.0, square), float(len(values)))

    @cached_property
    def distances(self) -> tuple[float, ...]:
        """How far each reading has to move to fit all others, in its own spreads of that (measurement
        test).
        """
        moved = self._through([g.value for g in self.gaps])
        return tuple(abs(m) / sqrt(max(self._inverse[i][i], 1e-300)) for i, m in enumerate(moved))

    @property
    def contradicting(self) -> frozenset[int]:
        """Indices of the readings that take part in a contradiction; none where all may be sound.

        Which of them is the wrong one cannot be known: all are named.
        """
        if self.chance >= SOUND:
            return frozenset()
        far = frozenset(i for i, d in enumerate(self.distances) if d > _TAKES_PART)
        return far or frozenset(range(len(self.gaps)))

    def judged(self, readings: Sequence[ScaleReading]) -> tuple[ScaleReading, ...]:
        """The build's readings, each with whether it takes part in a contradiction."""
        odd = {self.own[i] for i in self.contradicting}
        return tuple(replace(r, explained=i not in odd) for i, r in enumerate(readings))
