"""Reading between the points of a table, never beyond its ends.

Monotone cubic interpolation (PCHIP) follows Fritsch and Butland (1984) with the three-point end
slopes that scipy's PchipInterpolator uses, so that it can be checked against it: where the table
only rises, so does the curve, and it never overshoots a point.
"""

from bisect import bisect_right
from functools import lru_cache
from itertools import pairwise

_TABLES = 64  # whose steps are held: those of one build


def linear(x: float, xs: tuple[float, ...], ys: tuple[float, ...]) -> float:
    """A value between the points of a table, on straight lines.

    Formula: y = y_k + (y_{k+1} - y_k) (x - x_k) / (x_{k+1} - x_k)
    x: x, where the value is wanted [1]
    xs: x_k, places of the points, rising [1]
    ys: y_k, values at the points [1]
    Gives: y, value at x, in the unit of y_k [1]
    Limits: x within the table, two points or more, places rising; else ValueError. At a point the
        slope is that of the line above it.
    Source: definition

    >>> linear(2.5, (1.0, 2.0, 3.0), (10.0, 20.0, 40.0))
    30.0
    """
    k = _interval(x, xs, ys)
    share = (x - xs[k]) / (xs[k + 1] - xs[k])
    return ys[k] * (1.0 - share) + ys[k + 1] * share


def monotone(x: float, xs: tuple[float, ...], ys: tuple[float, ...]) -> float:
    """A value between the points of a table, on a smooth curve that keeps its rises and falls.

    Formula: y = cubic Hermite through (x_k, y_k) with the slopes of Fritsch and Butland
    x: x, where the value is wanted [1]
    xs: x_k, places of the points, rising [1]
    ys: y_k, values at the points [1]
    Gives: y, value at x, in the unit of y_k [1]
    Limits: x within the table, two points or more, places rising; else ValueError.
    Source: Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300-304, as in scipy's
        PchipInterpolator.

    >>> round(monotone(2.5, (1.0, 2.0, 3.0), (10.0, 20.0, 40.0)), 4)
    28.5417
    """
    k = _interval(x, xs, ys)
    steps, rises = _steps_and_rises(xs, ys)
    before, after = _slope(k, steps, rises), _slope(k + 1, steps, rises)
    h, t = steps[k], (x - xs[k]) / steps[k]
    levels = ys[k] * (1.0 + 2.0 * t) * (1.0 - t) ** 2 + ys[k + 1] * t * t * (3.0 - 2.0 * t)
    slope_here = h * before * t * (1.0 - t) ** 2
    slope_there = h * after * t * t * (t - 1.0)
    return levels + slope_here + slope_there


def monotone_through(x: float, *points: float) -> float:
    """A value on a smooth curve through points given one after another, each a figure of its own.

    Formula: y = cubic Hermite through (x_k, y_k) with the slopes of Fritsch and Butland
    x: x, where the value is wanted [1]
    points: x_k, places, rising, each followed by its value y_k [1]
    Gives: y, value at x, in the unit of y_k [1]
    Limits: x within the table, two points or more, places rising; else ValueError.
    Source: Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300-304, as in scipy's
        PchipInterpolator.

    >>> round(monotone_through(2.5, 1.0, 10.0, 2.0, 20.0, 3.0, 40.0), 4)
    28.5417
    """
    return monotone(x, points[0::2], points[1::2])


@lru_cache(maxsize=_TABLES)
def _check(xs: tuple[float, ...], ys: tuple[float, ...]) -> None:
    """ValueError for what is no table; looked at once, for a curve is read backwards in fifty
    steps.
    """
    if len(xs) != len(ys) or len(xs) < 2:
        raise ValueError("A table needs two points or more, and a value for each place.")
    if any(after <= before for before, after in pairwise(xs)):
        raise ValueError("The places of a table rise from point to point.")


def _interval(x: float, xs: tuple[float, ...], ys: tuple[float, ...]) -> int:
    """Which stretch of the table holds x."""
    _check(xs, ys)
    if not xs[0] <= x <= xs[-1]:
        raise ValueError("The table does not reach that far, and nothing is read beyond its ends.")
    return min(bisect_right(xs, x), len(xs) - 1) - 1


@lru_cache(maxsize=_TABLES)
def _steps_and_rises(
    xs: tuple[float, ...], ys: tuple[float, ...]
) -> tuple[tuple[float, ...], tuple[float, ...]]:
    steps = tuple(b - a for a, b in pairwise(xs))
    return steps, tuple((b - a) / h for (a, b), h in zip(pairwise(ys), steps, strict=True))


def _slope(k: int, steps: tuple[float, ...], rises: tuple[float, ...]) -> float:
    """Slope of the curve at point k."""
    if len(rises) == 1:
        return rises[0]
    if k == 0:
        return _end_slope(steps[0], steps[1], rises[0], rises[1])
    if k == len(rises):
        return _end_slope(steps[-1], steps[-2], rises[-1], rises[-2])
    before, after = rises[k - 1], rises[k]
    if before * after <= 0.0:
        return 0.0
    weight_before = 2.0 * steps[k] + steps[k - 1]
    weight_after = steps[k] + 2.0 * steps[k - 1]
    return (weight_before + weight_after) / (weight_before / before + weight_after / after)


def _end_slope(h: float, next_h: float, rise: float, next_rise: float) -> float:
    """Three-point slope at an end, held back so that the curve keeps its shape."""
    slope = ((2.0 * h + next_h) * rise - h * next_rise) / (h + next_h)
    if slope * rise <= 0.0:
        return 0.0
    if rise * next_rise <= 0.0 and abs(slope) > 3.0 * abs(rise):
        return 3.0 * rise
    return slope
