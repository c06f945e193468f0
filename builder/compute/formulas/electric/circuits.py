"""Currents that share themselves among several ways, and what a short lets through."""


def part_of_current(current: float, share: float) -> float:
    """Current of one of several unlike ways in parallel.

    Formula: I₁ = s I
    current: I, current of all together [A]
    share: s, share of it by the resistances of all ways [1]
    Gives: I₁, current of this way [A]
    Limits: share from 0 to 1, else ValueError.
    Source: Kirchhoff's laws

    >>> part_of_current(20.0, 0.25)
    5.0
    """
    if not 0.0 <= share <= 1.0 + 1e-9:
        raise ValueError("A way carries from nothing to all of a current.")
    return share * current


def short_circuit_current(volts: float, battery: float, leads: float) -> float:
    """Current into a dead short at the end of the leads.

    Formula: I = U / (R_b + R_l)
    volts: U, resting volts of the battery [V]
    battery: R_b, resistance of the battery [Ω]
    leads: R_l, resistance of leads and connectors, out and back [Ω]
    Gives: I, current in the first instant [A]
    Limits: resistances above 0 together, else ValueError. The short itself takes no volts; cells give
        less once they warm.
    Source: Ohm's law

    >>> round(short_circuit_current(16.8, 0.024, 0.004), 1)
    600.0
    """
    if battery + leads <= 0.0:
        raise ValueError("A short without resistance has no current.")
    return volts / (battery + leads)
