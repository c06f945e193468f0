"""Solve a formula backwards (drop one argument, find it from the result); integrate a quantity over
time.
"""

from collections.abc import Callable

from scipy.integrate import solve_ivp
from scipy.optimize import brentq


def solved(function: Callable[..., float], arguments: tuple[float, ...], dropped: int) -> float:
    """The argument at place `dropped`, found from the formula's value and the other arguments
    alone.
    """
    target = function(*arguments)

    def miss(x: float) -> float:
        return function(*arguments[:dropped], x, *arguments[dropped + 1 :]) - target

    for width in (0.3, 0.1, 0.03, 0.01, 0.003):
        low, high = sorted(
            (arguments[dropped] * (1.0 - 0.7 * width), arguments[dropped] * (1.0 + width))
        )
        try:
            ends = miss(low), miss(high)
        except ValueError:
            continue  # the formula's domain ends in between: look closer
        if ends[0] * ends[1] < 0.0:
            root: float = brentq(miss, low, high, xtol=1e-15 * max(abs(low), abs(high)), rtol=1e-14)
            return root
    raise AssertionError(f"{function.__name__} does not depend on argument {dropped} here")


def grown(rate: Callable[[float], float], start: float, time: float) -> float:
    """Value after a time of a quantity that changes at a rate of its own value, integrated by
    scipy.
    """
    run = solve_ivp(lambda _, y: [rate(float(y[0]))], (0.0, time), [start], rtol=1e-10, atol=1e-10)
    return float(run.y[0][-1])


def time_until(
    rate: Callable[[float], float], start: float, reached: Callable[[float], float], limit: float
) -> float:
    """When such a quantity first makes `reached` 0, integrated by scipy."""
    run = solve_ivp(
        lambda _, y: [rate(float(y[0]))],
        (0.0, limit),
        [start],
        events=lambda _, y: reached(float(y[0])),
        rtol=1e-10,
        atol=1e-12,
    )
    assert run.t_events is not None
    return float(run.t_events[0][0])
