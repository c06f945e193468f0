"""A number that knows where it came from.

A Figure is a leaf (what somebody weighed, a maker claimed, a setting says) or the result of a
formula whose inputs are figures too. Slopes by leaf key carry the correlation: two figures that
share a leaf share its error, in one build and between builds. Propagation is first order (JCGM
100:2008, 5.1.2 and 5.2.2 with shared leaves).
"""

import re
from collections.abc import Iterable, Sequence
from functools import cache
from math import exp, fsum, isfinite, sqrt
from statistics import NormalDist
from typing import Literal

from builder.compute.figures.sloped_formula import OUTSIDE, Formula
from builder.compute.figures.told import WordsOrTold
from builder.diagnostics.where import Where
from builder.frozen import value_class, worked_out_once

Basis = Literal["measured", "maker", "estimate", "computed", "setting", "defined"]
# logarithms to either side beyond which a band says nothing, and its factor would overflow
_WIDEST = 20.0


@value_class(frozen=True, slots=True)
class Unknown:
    """What is not known, and what is missing to know it. Passes through formulas."""

    key: str
    label: str
    missing: tuple[str, ...]

    @property
    def anchor(self) -> str:
        """The id of its line on the numbers page."""
        return anchor_of(self.key)


@value_class(frozen=True, eq=False)
class Figure:
    """A number with unit (SI), spread (one standard deviation), basis and either its source or its
    derivation.

    `own` is the standard deviation of a leaf. `lacks` names what a total leaves out: it then reads
    'at least'. `shape` says how its band is drawn: normal, or quantiles in logarithms. `note` is an
    assumption in words.
    """

    key: str
    label: str
    value: float
    unit: str
    own: float = 0.0
    basis: Basis = "computed"
    where: Where | None = None
    formula: Formula | None = None
    inputs: tuple["Figure", ...] = ()
    lacks: tuple[str, ...] = ()
    shape: Literal["normal", "lognormal"] = "normal"
    note: WordsOrTold = ""

    @worked_out_once
    def partials(self) -> tuple[float, ...]:
        """Slope, d value / d input, in the order of the inputs; empty for a leaf."""
        return (
            self.formula.slopes([i.value for i in self.inputs]) if self.formula is not None else ()
        )

    @worked_out_once
    def slopes(self) -> dict[str, float]:
        """Slope by leaf key, for leaves that have a spread: the chain rule over the slopes of the
        inputs.
        """
        if self.formula is None:
            return {self.key: 1.0} if self.own else {}
        out: dict[str, float] = {}
        for part, inner in zip(self.partials, self.inputs, strict=True):
            for key, slope in inner.slopes.items():
                out[key] = out.get(key, 0.0) + part * slope
        return out

    @worked_out_once
    def leaves(self) -> dict[str, "Figure"]:
        """The leaves that have a spread and that this figure rests on, by key."""
        if self.formula is None:
            return {self.key: self} if self.own else {}
        out: dict[str, Figure] = {}
        for inner in reversed(self.inputs):
            out.update(inner.leaves)
        return out

    @property
    def derivation(self) -> tuple["Figure", ...]:
        """Every figure that this one rests on and itself, inputs before what uses them, each once."""
        return derivations((self,))

    @worked_out_once
    def _variances(self) -> dict[str, float]:
        """What each leaf adds to the variance, by key."""
        leaves = self.leaves
        return {key: (slope * leaves[key].own) ** 2 for key, slope in self.slopes.items()}

    @worked_out_once
    def spread(self) -> float:
        """One standard deviation, first order."""
        return sqrt(fsum(self._variances.values()))

    def contributions(self) -> tuple[tuple["Figure", float], ...]:
        """Each leaf and its share of the variance, largest first."""
        total = self.spread**2
        if not total:
            return ()
        shares = sorted([(-added / total, key) for key, added in self._variances.items()])
        return tuple([(self.leaves[key], -share) for share, key in shares])

    def band(self, share: float) -> tuple[float, float]:
        """The interval that holds the value with a probability of `share`."""
        z = _deviations(share)
        if self.shape == "lognormal" and 0 < z * self.spread < _WIDEST * self.value:
            factor = exp(z * self.spread / self.value)
            return self.value / factor, self.value * factor
        return self.value - z * self.spread, self.value + z * self.spread

    @worked_out_once
    def anchor(self) -> str:
        """The id of its derivation on the numbers page: a pure function of the key."""
        return anchor_of(self.key)


@cache
def _deviations(share: float) -> float:
    """How many standard deviations to either side hold a normal value with a probability of
    `share`.
    """
    return NormalDist().inv_cdf(0.5 + share / 2)


MaybeFigure = Figure | Unknown
_NO_ID_LETTER = re.compile("[^A-Za-z0-9./+,-]")


def anchor_of(key: str) -> str:
    """A key as an HTML id and as what stands behind the # of an address: the key itself, odd
    characters by number.
    """
    plain = _NO_ID_LETTER.sub(lambda c: f"_{ord(c[0]):x}_", key)
    return plain if "/" in plain else f"n/{plain}"


def derivations(figures: Iterable[Figure]) -> tuple[Figure, ...]:
    """These figures and every one that they rest on, inputs before what uses them, each once."""
    order: list[Figure] = []
    seen: set[int] = set()
    begun: list[Figure] = []
    stack: list[
        Figure | None
    ] = []  # None: all inputs of the one that was begun last stand in the order
    for figure in figures:
        stack.append(figure)
        while stack:
            node = stack.pop()
            if node is None:
                order.append(begun.pop())
            elif id(node) not in seen:
                seen.add(id(node))
                if node.inputs:
                    begun.append(node)
                    stack.append(None)
                    stack.extend(reversed(node.inputs))
                else:
                    order.append(node)
    return tuple(order)


def leaf(
    key: str,
    label: str,
    value: float,
    unit: str,
    *,
    own: float = 0.0,
    basis: Basis = "maker",
    where: Where | None = None,
    note: WordsOrTold = "",
) -> Figure:
    """A figure that was read, not computed. `own` is its standard deviation in the same unit."""
    return Figure(key, label, value, unit, own, basis, where, note=note)


def constant(key: str, label: str, value: float, unit: str, note: WordsOrTold = "") -> Figure:
    """A figure without spread that nobody measured: a count, a definition."""
    return Figure(key, label, value, unit, 0.0, "defined", note=note)


def missing_of(inputs: Sequence[MaybeFigure]) -> tuple[str, ...]:
    """What is missing to know all of these, each once."""
    unknown = [i for i in inputs if isinstance(i, Unknown)]
    return tuple(dict.fromkeys(m for i in unknown for m in i.missing)) if unknown else ()


def lacks_of(inputs: Iterable[Figure]) -> tuple[str, ...]:
    """What these leave out, each once."""
    lacking = [i.lacks for i in inputs if i.lacks]
    return tuple(dict.fromkeys(name for lacks in lacking for name in lacks)) if lacking else ()


def _refusal(label: str, error: Exception) -> str:
    """Why a formula refuses its values: in its own words, else that they lie outside what it is
    made for.
    """
    own = type(error) is ValueError and not str(error).startswith(("math ", "expected "))
    return str(error) if own else f"values within the limits of the formula of: {label}"


def apply(
    key: str,
    label: str,
    how: Formula,
    *inputs: MaybeFigure,
    shape: Literal["normal", "lognormal"] = "normal",
    note: WordsOrTold = "",
) -> MaybeFigure:
    """The formula applied to figures. Unknown if an input is, or if the formula refuses the values."""
    missing = missing_of(inputs)
    if missing:
        return Unknown(key, label, missing)
    known = tuple([i for i in inputs if isinstance(i, Figure)])
    try:
        value = how.function(*[i.value for i in known])
    except OUTSIDE as error:
        return Unknown(key, label, (_refusal(label, error),))
    if not isfinite(value):
        return Unknown(key, label, (f"{label} comes out without bound",))
    return Figure(
        key,
        label,
        value,
        how.text.gives.unit,
        formula=how,
        inputs=known,
        lacks=lacks_of(known),
        shape=shape,
        note=note,
    )
