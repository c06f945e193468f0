"""Spreads, chances and bands: one standard deviation is meant wherever a spread is named."""

import math
from statistics import median


def resolution_spread(resolution: float) -> float:
    """Spread of a reading on a scale of a given resolution.

    Formula: s = d / √12
    resolution: d, smallest step of the scale [1]
    Gives: s, spread of one reading, in the unit of d [1]
    Limits: every place within the step alike likely; resolution not negative, else ValueError.
    Source: JCGM 100:2008 (GUM), F.2.2.1

    >>> round(resolution_spread(1.0), 2)
    0.29
    """
    if resolution < 0.0:
        raise ValueError("A scale's resolution cannot be negative.")
    return resolution / math.sqrt(12.0)


def chance_above(value: float, limit: float, spread: float) -> float:
    """Chance that the true value lies above a limit.

    Formula: P = ½ erfc((L - x) / (s √2))
    value: x, best value [1]
    limit: L, limit, in the unit of x [1]
    spread: s, spread of the value, in the unit of x [1]
    Gives: P, chance of lying above the limit [1]
    Limits: normal errors; spread not negative, else ValueError; without spread 1 above the limit,
        else 0.
    Source: normal distribution, definition

    >>> round(chance_above(249.0, 250.0, 1.0), 4)
    0.1587
    """
    if spread < 0.0:
        raise ValueError("A spread cannot be negative.")
    if spread == 0.0:
        return 1.0 if value > limit else 0.0
    return 0.5 * math.erfc((limit - value) / (spread * math.sqrt(2.0)))


def log_spread(*values: float) -> float:
    """Spread of the logarithms of a sample of ratios.

    Formula: σ = √(Σ (ln x_i - ln m)² / (n - 1))
    values: x_i, ratios [1]
    Gives: σ, spread of the natural logarithm [1]
    Limits: two values or more, all above 0, else ValueError.
    Source: sample standard deviation, definition

    >>> round(log_spread(1.2, 1.5, 1.35), 4)
    0.1116
    """
    logs = _logs(values)
    if len(logs) < 2:
        raise ValueError("A spread between values needs two of them.")
    mean = math.fsum(logs) / len(logs)
    return math.sqrt(math.fsum((x - mean) ** 2 for x in logs) / (len(logs) - 1))


def robust_distance(value: float, *values: float) -> float:
    """How far a value stands from the others, measured so that outliers do not hide themselves.

    Formula: z = 0.6745 (x - med x_i) / med |x_i - med x_i|
    value: x, value to be judged [1]
    values: x_i, the sample, x with it; med is the median [1]
    Gives: z, distance in spreads; an outlier is marked beyond 3.5 [1]
    Limits: three values or more, else ValueError; infinite where half of the sample is one value
        and x is another.
    Source: Iglewicz and Hoaglin, How to Detect and Handle Outliers (1993) (from memory)

    >>> round(robust_distance(2.9, 1.4, 1.5, 1.45, 1.55, 2.9), 1)
    18.9
    """
    if len(values) < 3:
        raise ValueError("An outlier can be told among three values or more.")
    middle = median(values)
    scatter = median(abs(x - middle) for x in values)
    if scatter == 0.0:
        return 0.0 if value == middle else math.copysign(math.inf, value - middle)
    return 0.6745 * (value - middle) / scatter


def _between(chance: float) -> None:
    if not 0.0 < chance < 1.0:
        raise ValueError("A chance for a quantile lies above 0 and below 1.")


def _not_negative(count: float, spread: float) -> None:
    if count < 0.0 or spread < 0.0:
        raise ValueError("Neither a count nor a spread can be negative.")


def _logs(values: tuple[float, ...]) -> list[float]:
    if not values or min(values) <= 0.0:
        raise ValueError("Logarithms need one value or more, all above 0.")
    return [math.log(x) for x in values]
