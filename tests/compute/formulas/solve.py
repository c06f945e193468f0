"""Solve a formula backwards: drop one argument, find it again from the result."""

from collections.abc import Callable

from scipy.optimize import brentq


def solved(function: Callable[..., float], arguments: tuple[float, ...], dropped: int) -> float:
    """The argument at place `dropped`, found from the formula's value and the other arguments alone."""
    target = function(*arguments)

    def miss(x: float) -> float:
        return function(*arguments[:dropped], x, *arguments[dropped + 1 :]) - target

    for width in (0.3, 0.1, 0.03, 0.01, 0.003):
        low, high = sorted((arguments[dropped] * (1.0 - 0.7 * width), arguments[dropped] * (1.0 + width)))
        try:
            ends = miss(low), miss(high)
        except ValueError:
            continue  # the formula's domain ends in between: look closer
        if ends[0] * ends[1] < 0.0:
            root: float = brentq(miss, low, high, xtol=1e-15 * max(abs(low), abs(high)), rtol=1e-14)
            return root
    raise AssertionError(f"{function.__name__} does not depend on argument {dropped} here")
