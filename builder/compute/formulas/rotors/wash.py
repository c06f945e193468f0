"""Rotors above each other, wholly or in part: the lower one works in the wash of the upper."""

from math import acos, pi, sqrt


def thrust_in_clear_air(thrust: float, wash: float) -> float:
    """Thrust that takes the same power in clear air as a thrust of one rotor of a pair.

    Formula: T' = T κ^(2/3)
    thrust: T, thrust of one rotor of the pair, the mean of both [N]
    wash: κ, power of the pair over that of two rotors in clear air [1]
    Gives: T', thrust of a rotor in clear air at the same power [N]
    Limits: hover, both rotors of one size and of equal thrust; thrust not negative and wash above
        0, else ValueError.
    Source: Leishman, Principles of Helicopter Aerodynamics, ch. 2: power goes with T^(3/2).

    >>> round(thrust_in_clear_air(2.0, 1.281), 3)
    2.359
    """
    if thrust < 0.0 or wash <= 0.0:
        raise ValueError("A pair of rotors needs thrust of 0 or more, and a factor above 0.")
    power: float = wash ** (2.0 / 3.0)
    return thrust * power


def thrust_in_wash(thrust: float, wash: float) -> float:
    """Thrust of rotors in pairs above each other, from their thrust in clear air at the same power.

    Formula: T = T' / κ^(2/3)
    thrust: T', thrust of the rotors in clear air [N]
    wash: κ, power of the pair over that of two rotors in clear air [1]
    Gives: T, thrust of the same rotors in pairs [N]
    Limits: as for hover, both rotors of one size; thrust not negative and wash above 0, else
        ValueError.
    Source: Leishman, Principles of Helicopter Aerodynamics, ch. 2: power goes with T^(3/2).

    >>> round(thrust_in_wash(2.359, 1.281), 3)
    2.0
    """
    if wash <= 0.0:
        raise ValueError("A factor of the wash is above 0.")
    return thrust_in_clear_air(thrust, 1.0 / wash)


def overlap_of_discs(apart: float, diameter: float) -> float:
    """Share of one disc that another one of its size covers, seen from above.

    Formula: m = 2/π (arccos(d/D) - d/D √(1 - (d/D)²)), 0 where d is D or more
    apart: d, distance of both middles, seen from above [m]
    diameter: D, diameter of each disc [m]
    Gives: m, share of one disc that lies above or below the other [1]
    Limits: discs of one size; distance not negative and diameter above 0, else ValueError.
    Source: Leishman, Principles of Helicopter Aerodynamics, ch. 2 (from memory); geometry

    >>> round(overlap_of_discs(0.05, 0.1), 3)
    0.391
    """
    if apart < 0.0 or diameter <= 0.0:
        raise ValueError("Discs have a distance of 0 or more, and a diameter above 0.")
    ratio = apart / diameter
    if ratio >= 1.0:
        return 0.0
    return 2.0 / pi * (acos(ratio) - ratio * sqrt(1.0 - ratio * ratio))


def power_with_overlap(covered: float, rotors: float) -> float:
    """Power of all rotors of which some overlap in part, over that in clear air.

    Formula: κ = 1 + 2 (√2 - 1) M / N
    covered: M, sum over all pairs of the share of a disc that the other one covers [1]
    rotors: N, number of rotors [1]
    Gives: κ, power of all over that of as many in clear air [1]
    Limits: hover, equal thrust, one size, no place under three discs; covered not negative and at
        least one rotor, else ValueError. Both rotors of a pair as one where they overlap, as if they
        were at one height: rotors far above each other take less.
    Source: Leishman, Principles of Helicopter Aerodynamics, ch. 2, on overlapping tandem rotors
        (from memory): κ = 1 + (√2 - 1) m for one pair

    >>> round(power_with_overlap(0.391, 2.0), 3)
    1.162
    """
    if covered < 0.0 or rotors < 1.0:
        raise ValueError("Overlap is 0 or more, of one rotor or more.")
    return 1.0 + 2.0 * (sqrt(2.0) - 1.0) * covered / rotors
