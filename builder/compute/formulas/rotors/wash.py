"""Rotors above each other: the lower one works in the wash of the upper."""


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
