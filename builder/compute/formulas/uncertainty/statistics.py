"""Spreads, chances and bands: one standard deviation is meant wherever a spread is named."""

import math
from statistics import NormalDist, median


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


def normal_quantile(value: float, spread: float, chance: float) -> float:
    """Value below which a normal quantity lies with a chance.

    Formula: x_p = x + s Φ⁻¹(p)
    value: x, mean [1]
    spread: s, spread, in the unit of x [1]
    chance: p, chance of lying below [1]
    Gives: x_p, quantile, in the unit of x [1]
    Limits: chance above 0 and below 1, spread not negative, else ValueError.
    Source: normal distribution, definition

    >>> round(normal_quantile(250.0, 1.0, 0.9), 3)
    251.282
    """
    _between(chance)
    if spread < 0.0:
        raise ValueError("A spread cannot be negative.")
    return value + spread * NormalDist().inv_cdf(chance)


def lognormal_quantile(middle: float, log_spread: float, chance: float) -> float:
    """Value below which a quantity lies with a chance, when its logarithm is normal.

    Formula: x_p = m e^(σ Φ⁻¹(p))
    middle: m, median [1]
    log_spread: σ, spread of the natural logarithm [1]
    chance: p, chance of lying below [1]
    Gives: x_p, quantile, in the unit of m [1]
    Limits: median above 0, spread not negative, chance above 0 and below 1, else ValueError.
    Source: lognormal distribution, definition

    >>> round(lognormal_quantile(300.0, 0.16, 0.1), 1)
    244.4
    """
    _between(chance)
    if middle <= 0.0 or log_spread < 0.0:
        raise ValueError("A lognormal band needs a median above 0 and a spread of 0 or more.")
    return middle * math.exp(log_spread * NormalDist().inv_cdf(chance))


def log_spread_from_share(share: float) -> float:
    """Spread of the logarithm of a quantity from its relative spread.

    Formula: σ = √(ln(1 + r²))
    share: r, spread divided by the mean [1]
    Gives: σ, spread of the natural logarithm [1]
    Limits: lognormal; share not negative, else ValueError.
    Source: moments of the lognormal distribution

    >>> round(log_spread_from_share(0.16), 4)
    0.159
    """
    if share < 0.0:
        raise ValueError("A relative spread cannot be negative.")
    return math.sqrt(math.log1p(share * share))


def common_spread(count: float, spread: float) -> float:
    """Spread of a total of alike pieces that all share one error.

    Formula: S = n s
    count: n, number of pieces [1]
    spread: s, spread of one piece [1]
    Gives: S, spread of the total, in the unit of s [1]
    Limits: count and spread not negative, else ValueError.
    Source: JCGM 100:2008 (GUM), 5.2, correlation 1

    >>> common_spread(4, 0.5)
    2.0
    """
    _not_negative(count, spread)
    return count * spread


def scatter_spread(count: float, spread: float) -> float:
    """Spread of a total of alike pieces of which each has an error of its own.

    Formula: S = √n s
    count: n, number of pieces [1]
    spread: s, spread of one piece [1]
    Gives: S, spread of the total, in the unit of s [1]
    Limits: count and spread not negative, else ValueError.
    Source: JCGM 100:2008 (GUM), 5.1, correlation 0

    >>> scatter_spread(4, 0.5)
    1.0
    """
    _not_negative(count, spread)
    return math.sqrt(count) * spread


def total_spread(count: float, common: float, scatter: float) -> float:
    """Spread of a total of alike pieces with a common error and a scatter between them.

    Formula: S = √((n s_c)² + n s_s²)
    count: n, number of pieces [1]
    common: s_c, spread that all pieces share [1]
    scatter: s_s, spread from piece to piece [1]
    Gives: S, spread of the total, in the unit of the spreads [1]
    Limits: count and spreads not negative, else ValueError.
    Source: JCGM 100:2008 (GUM), 5.1 and 5.2

    >>> round(total_spread(4, 0.3, 0.5), 4)
    1.562
    """
    return math.hypot(common_spread(count, common), scatter_spread(count, scatter))


def geometric_mean(*values: float) -> float:
    """Geometric mean of ratios.

    Formula: m = e^(Σ ln x_i / n)
    values: x_i, ratios [1]
    Gives: m, geometric mean, in the unit of x_i [1]
    Limits: one value or more, all above 0, else ValueError.
    Source: definition

    >>> geometric_mean(1.0, 4.0)
    2.0
    """
    return math.exp(math.fsum(_logs(values)) / len(values))


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
