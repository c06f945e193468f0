"""Round numbers along an axis."""

from math import ceil, floor, log10


def round_step(span: float, most: float) -> float:
    """The smallest of 1, 2 and 5 times a power of ten of which no more than `most` fit into a span.

    >>> round_step(9.3, 5), round_step(0.4, 5)
    (2.0, 0.1)
    """
    least = span / most
    power = 10.0 ** floor(log10(least))
    return next(power * m for m in (1, 2, 5, 10) if power * m >= least * (1 - 1e-9))


def round_steps(high: float, at_most: int = 8) -> tuple[float, ...]:
    """Multiples of 1, 2 or 5 times a power of ten from 0 to at least `high`, `at_most` of them.

    >>> round_steps(9.3, 6)
    (0.0, 2.0, 4.0, 6.0, 8.0, 10.0)
    """
    if high <= 0:
        return (0.0, 1.0)
    step = round_step(high, at_most - 1)
    return tuple(step * i for i in range(ceil(high / step - 1e-9) + 1))


def round_decades(low: float, high: float) -> tuple[float, ...]:
    """1, 2 and 5 times powers of ten from at most `low` to at least `high`, for an axis in
    logarithms.

    >>> round_decades(74, 965)
    (50.0, 100.0, 200.0, 500.0, 1000.0)
    """
    powers = range(floor(log10(low)) - 1, ceil(log10(high)) + 2)
    marks = [m * 10.0**p for p in powers for m in (1, 2, 5)]
    first = max(i for i, m in enumerate(marks) if m <= low)
    last = min(i for i, m in enumerate(marks) if m >= high)
    return tuple(marks[first : last + 1])
