"""Readings and what was believed before them, brought together by least squares."""

import math

from builder.compute.formulas.uncertainty.statistics import resolution_spread


def reading_spread(step: float, repeatability: float, calibration: float) -> float:
    """Spread of one reading of a scale.

    Formula: s = √(d² / 12 + r² + c²)
    step: d, smallest step that was shown or written [kg]
    repeatability: r, spread of one reading against the next of the same load [kg]
    calibration: c, spread of what the scale reads wrong at that load, 0 where it is kept apart [kg]
    Gives: s, spread of the reading [kg]
    Limits: nothing negative, else ValueError.
    Source: JCGM 100:2008 (GUM), F.2.2.1 for the step, 5.1.2 for the sum

    >>> round(reading_spread(0.001, 0.001, 0.0) * 1000, 3)
    1.041
    """
    if min(step, repeatability, calibration) < 0.0:
        raise ValueError("No part of a reading's spread is negative.")
    return math.hypot(resolution_spread(step), repeatability, calibration)


def calibrated_mass(shown: float, error: float) -> float:
    """Mass by a scale of which a common error is kept apart.

    Formula: m = y (1 + g)
    shown: y, mass that the scale showed [kg]
    error: g, share by which the scale reads too little, the same for all its readings [1]
    Gives: m, mass [kg]
    Limits: mass not negative, else ValueError.
    Source: definition

    >>> calibrated_mass(0.25, 0.0)
    0.25
    """
    if shown < 0.0:
        raise ValueError("A mass on a scale is not negative.")
    return shown * (1.0 + error)


def reconciled_mass(expected: float, *weights_and_gaps: float) -> float:
    """Mass by its parts and by all readings of the scale together.

    Formula: m = m₀ + Σ w_i e_i
    expected: m₀, mass by the parts and what is expected beyond them [kg]
    weights_and_gaps: w_i, weight of a reading by least squares; e_i, reading less what was
        expected of it; in turn [1]
    Gives: m, mass with the least spread [kg]
    Limits: weights and gaps in pairs, else ValueError; errors of parts and readings of the size
        that is said of them.
    Source: data reconciliation, Narasimhan and Jordache, Data Reconciliation and Gross Error
        Detection (2000), ch. 3 (from memory)

    >>> round(reconciled_mass(0.16, 0.9, 0.01), 3)
    0.169
    """
    if len(weights_and_gaps) % 2:
        raise ValueError("Each reading has a weight and a gap.")
    weights, gaps = weights_and_gaps[0::2], weights_and_gaps[1::2]
    return expected + math.fsum(w * e for w, e in zip(weights, gaps, strict=True))


def chance_of_chi_square(total: float, freedom: float) -> float:
    """Chance that squares of normal errors add up to more.

    Formula: P = Q(ν / 2, χ² / 2)
    total: χ², sum of the squares, each in its own spread [1]
    freedom: ν, how many there are; a whole number [1]
    Gives: P, chance of a larger sum [1]
    Limits: freedom from 1, the sum not negative, else ValueError.
    Source: Abramowitz and Stegun 26.4.4 and 26.4.5

    >>> round(chance_of_chi_square(6.635, 1.0), 4)
    0.01
    """
    n = round(freedom)
    if total < 0.0 or n < 1:
        raise ValueError("A sum of squares is not negative, and of one error at least.")
    half = total / 2.0
    if n % 2:
        out, term = math.erfc(math.sqrt(half)), math.exp(-half) / math.sqrt(math.pi)
        for k in range(1, n, 2):
            out += term * half ** (k / 2.0) / math.gamma(k / 2.0 + 1.0) * math.sqrt(math.pi)
        return min(1.0, out)
    return min(1.0, math.exp(-half) * math.fsum(half**k / math.factorial(k) for k in range(n // 2)))
