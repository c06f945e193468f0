"""Bands from few samples: weighted means, pooled spreads, Student's t."""

import math


def pooled_spread(prior_spread: float, prior_freedom: float, spread: float, count: float) -> float:
    """Spread from a small sample and from what was known before it.

    Formula: s_p = √((ν₀ s₀² + (n - 1) s²) / (ν₀ + n - 1))
    prior_spread: s₀, spread as known before [1]
    prior_freedom: ν₀, how many samples that knowledge is worth, less one [1]
    spread: s, spread of the sample; any value when n is 1 [1]
    count: n, number of samples [1]
    Gives: s_p, pooled spread with ν₀ + n - 1 degrees of freedom [1]
    Limits: n from 1, ν₀ and spreads not negative, ν₀ + n above 1, else ValueError.
    Source: pooled variance; the same as a scaled inverse chi-square prior (Gelman et al.,
        Bayesian Data Analysis, ch. 2) (from memory)

    >>> pooled_spread(0.2, 4.0, 0.0, 1)
    0.2
    """
    if (
        count < 1.0
        or min(prior_spread, prior_freedom, spread) < 0.0
        or prior_freedom + count <= 1.0
    ):
        raise ValueError(
            "A pooled spread needs a sample, or knowledge from before, and no negative spread."
        )
    freedom = prior_freedom + count - 1.0
    return math.sqrt((prior_freedom * prior_spread**2 + (count - 1.0) * spread**2) / freedom)


def student_quantile(chance: float, freedom: float) -> float:
    """Quantile of Student's t distribution.

    Formula: t_p so that F(t_p; ν) = p
    chance: p, chance of lying below [1]
    freedom: ν, degrees of freedom [1]
    Gives: t_p, quantile [1]
    Limits: chance from 1e-6 to 1 - 1e-6, freedom from 0.5, else ValueError.
    Source: Student (1908); Abramowitz and Stegun 26.7.1 and 26.5.8, solved by bisection

    >>> round(student_quantile(0.9, 4), 4)
    1.5332
    """
    if not 1e-6 <= chance <= 1.0 - 1e-6 or freedom < 0.5:
        raise ValueError(
            "Student's t needs a chance within 1e-6 of 0 and 1, and half a degree of freedom."
        )
    if chance == 0.5:
        return 0.0
    tail = min(chance, 1.0 - chance)
    low, high = 0.0, 1.0
    while _student_tail(high, freedom) > tail:
        low, high = high, 2.0 * high
    while low < (middle := (low + high) / 2.0) < high:
        if _student_tail(middle, freedom) > tail:
            low = middle
        else:
            high = middle
    return high if chance > 0.5 else -high


def mean_margin(spread: float, count: float, freedom: float, chance: float) -> float:
    """Half the width of the band for a mean.

    Formula: w = t_{(1+p)/2; ν} s / √n
    spread: s, spread of one sample [1]
    count: n, number of samples in the mean [1]
    freedom: ν, degrees of freedom of the spread, n - 1 when it comes from the samples alone [1]
    chance: p, chance that the band holds the true mean [1]
    Gives: w, half width, in the unit of s [1]
    Limits: normal samples; n from 1, spread not negative, chance above 0 and below 1; else
        ValueError.
    Source: Student's t interval, definition

    >>> round(mean_margin(0.2, 5, 4, 0.8), 4)
    0.1371
    """
    if count < 1.0 or spread < 0.0:
        raise ValueError("A band needs one sample or more and a spread of 0 or more.")
    return student_quantile((1.0 + chance) / 2.0, freedom) * spread / math.sqrt(count)


def next_margin(spread: float, count: float, freedom: float, chance: float) -> float:
    """Half the width of the band for the next sample.

    Formula: w = t_{(1+p)/2; ν} s √(1 + 1/n)
    spread: s, spread of one sample [1]
    count: n, number of samples in the mean [1]
    freedom: ν, degrees of freedom of the spread, n - 1 when it comes from the samples alone [1]
    chance: p, chance that the band holds the next sample [1]
    Gives: w, half width, in the unit of s [1]
    Limits: normal samples; n from 1, spread not negative, chance above 0 and below 1; else
        ValueError.
    Source: Student's t prediction interval, definition

    >>> round(next_margin(0.2, 5, 4, 0.8), 4)
    0.3359
    """
    return mean_margin(spread, count, freedom, chance) * math.sqrt(count + 1.0)


def _weights(values: tuple[float, ...], spreads: tuple[float, ...]) -> list[float]:
    if not values or len(values) != len(spreads) or min(spreads) <= 0.0:
        raise ValueError("A weighted mean needs one value or more, with a spread above 0 for each.")
    return [1.0 / (s * s) for s in spreads]


def _student_tail(t: float, freedom: float) -> float:
    """Chance of lying above t, t not negative."""
    return 0.5 * _incomplete_beta(freedom / 2.0, 0.5, freedom, t * t)


def _incomplete_beta(a: float, b: float, part: float, rest: float) -> float:
    """Regularised incomplete beta function at x = part / (part + rest), which keeps 1 - x exact."""
    if rest == 0.0:
        return 1.0
    x, y = part / (part + rest), rest / (part + rest)
    log_beta = math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b)
    log_front = log_beta + a * math.log(x) + b * math.log(y)
    if x < (a + 1.0) / (a + b + 2.0):
        return math.exp(log_front) * _beta_fraction(a, b, x) / a
    return 1.0 - math.exp(log_front) * _beta_fraction(b, a, y) / b


def _beta_fraction(a: float, b: float, x: float) -> float:
    """Continued fraction of Abramowitz and Stegun 26.5.8 by Lentz's method."""
    tiny = 1e-300
    c, d = 1.0, 1.0 / _off_zero(1.0 - (a + b) * x / (a + 1.0), tiny)
    value = d
    for m in range(1, 500):
        even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
        odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
        for term in (even, odd):
            d = 1.0 / _off_zero(1.0 + term * d, tiny)
            c = _off_zero(1.0 + term / c, tiny)
            value *= c * d
        if abs(c * d - 1.0) < 1e-15:
            break
    return value


def _off_zero(x: float, tiny: float) -> float:
    return x if abs(x) > tiny else tiny
