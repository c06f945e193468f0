"""A formula with its slopes: analytic where it has them, else differences."""

from collections.abc import Callable, Sequence
from functools import cache
from math import isfinite

from builder.compute.figures.formula import FormulaText, formula_text
from builder.frozen import value_class

Partials = Callable[..., Sequence[float]]
FormulaReach = Callable[..., Sequence[int]]
OUTSIDE = (
    ValueError,
    ZeroDivisionError,
    OverflowError,
)  # what a formula raises for values that it is not made for
_RELATIVE_STEP = 6e-6  # near the cube root of the machine epsilon: best for central differences


@value_class(frozen=True, slots=True)
class Formula:
    """A pure function of SI floats with what its docstring says; analytic partials where it has
    them.

    `reach` gives, at these values, which arguments can change the result at all: of a long table
    those near by.
    """

    name: str
    function: Callable[..., float]
    text: FormulaText
    partials: Partials | None = None
    reach: FormulaReach | None = None

    def slopes(self, values: Sequence[float]) -> tuple[float, ...]:
        """Slope for each argument at these values: analytic, or a difference (one-sided at a
        domain's edge).

        Where the analytic one is without bound, as that of a root at 0, the difference is.
        """
        analytic = self._analytic(values)
        if analytic:
            return tuple(
                [s if isfinite(s) else self._difference(values, i) for i, s in enumerate(analytic)]
            )
        if self.reach is None:
            return tuple([self._difference(values, i) for i in range(len(values))])
        out = [0.0] * len(values)
        for i in self.reach(*values):
            out[i] = self._difference(values, i)
        return tuple(out)

    def _analytic(self, values: Sequence[float]) -> Sequence[float]:
        """The analytic slopes; none where the formula has none, or they refuse the values."""
        try:
            return self.partials(*values) if self.partials is not None else ()
        except OUTSIDE:
            return ()

    def _difference(self, values: Sequence[float], i: int) -> float:
        step = _RELATIVE_STEP * abs(values[i]) or _RELATIVE_STEP
        reach: list[tuple[float, float]] = []
        for x in (values[i] + step, values[i] - step):
            try:
                reach.append((x, self.function(*values[:i], x, *values[i + 1 :])))
            except OUTSIDE:
                reach.append((values[i], self.function(*values)))
        (x1, y1), (x0, y0) = reach
        return (y1 - y0) / (x1 - x0) if x1 != x0 else 0.0


@cache
def formula(
    function: Callable[..., float],
    partials: Partials | None = None,
    reach: FormulaReach | None = None,
) -> Formula:
    """The Formula of a documented function. ValueError if its docstring does not follow the
    grammar.
    """
    return Formula(function.__name__, function, formula_text(function), partials, reach)
