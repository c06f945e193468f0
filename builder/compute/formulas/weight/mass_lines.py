"""The row of a weight table: pieces times mass, and the scatter between pieces."""

import math

from builder.compute.formulas.weight.mass import COPPER_DENSITY

_COVER_DENSITY = 1200.0  # kg/m³, silicone (from memory)
_STRAND = 1.15  # strands against solid copper (from memory)


def line_mass(each: float, count: float, scatter: float) -> float:
    """Mass of all pieces of one part.

    Formula: m = n a + e
    each: a, mass of one piece; its error is common to all pieces [kg]
    count: n, number of pieces [1]
    scatter: e, sum of the pieces' own deviations, 0 with a spread of √n times that of one [kg]
    Gives: m, mass of the pieces together [kg]
    Limits: mass and count not negative, else ValueError.
    Source: definition

    >>> round(line_mass(0.0099, 4.0, 0.0), 4)
    0.0396
    """
    if each < 0.0 or count < 0.0:
        raise ValueError("Neither a mass nor a count can be negative.")
    return count * each + scatter


def pieces_mass(each: float, count: float) -> float:
    """Mass of all pieces of one part that were weighed together, or of which there is one.

    Formula: m = n a
    each: a, mass of one piece; its error is common to all pieces [kg]
    count: n, number of pieces [1]
    Gives: m, mass of the pieces together [kg]
    Limits: mass and count not negative, else ValueError.
    Source: definition

    >>> round(pieces_mass(0.0099, 4.0), 4)
    0.0396
    """
    return line_mass(each, count, 0.0)


def line_on_named_scale(each: float, count: float, scatter: float, error: float) -> float:
    """Mass of all pieces of one part, one of which lay on a scale that is known by name.

    Formula: m = n a (1 + g) + e
    each: a, mass of one piece as the scale showed it [kg]
    count: n, number of pieces [1]
    scatter: e, sum of the pieces' own deviations, 0 with a spread of √n times that of one [kg]
    error: g, share by which the scale reads too little, the same for all its readings [1]
    Gives: m, mass of the pieces together [kg]
    Limits: mass and count not negative, else ValueError.
    Source: definition

    >>> round(line_on_named_scale(0.0099, 4.0, 0.0, 0.0), 4)
    0.0396
    """
    return line_mass(each, count, 0.0) * (1.0 + error) + scatter


def wire_run_mass(area: float, outer: float, length: float) -> float:
    """Mass of a covered wire: copper and silicone.

    Formula: m = (ρ A + σ (π D² / 4 - 1.15² A)) l
    area: A, cross-section of the copper [m²]
    outer: D, diameter over the cover [m]
    length: l, length [m]
    Gives: m, mass [kg]
    Limits: nothing negative, and the cover not inside the copper, else ValueError.
    Source: definition; ρ = 8890 kg/m³ IEC 60028, σ = 1200 kg/m³ and 15 % of strand (from memory)

    >>> round(wire_run_mass(0.51762e-6, 0.0017, 1.0) * 1000, 2)
    6.5
    """
    cover = math.pi * outer**2 / 4.0 - _STRAND**2 * area
    if area < 0.0 or length < 0.0 or cover < 0.0:
        raise ValueError("A wire is no thinner than its copper, and nothing of it is negative.")
    return (COPPER_DENSITY * area + _COVER_DENSITY * cover) * length


def trimmed_mass(area: float, outer: float, whole: float, left: float) -> float:
    """What trimming a lead takes off, as a negative mass.

    Formula: m = -μ(A, D) (l - t)
    area: A, cross-section of the copper [m²]
    outer: D, diameter over the cover [m]
    whole: l, length as the maker fitted it [m]
    left: t, length that is left [m]
    Gives: m, change of mass [kg]
    Limits: a lead can be shortened, never lengthened: 0 for t over l; nothing negative, else
        ValueError.
    Source: definition; μ as in wire_run_mass

    >>> round(trimmed_mass(0.51762e-6, 0.0017, 0.1, 0.03) * 1000, 2)
    -0.46
    """
    if left < 0.0:
        raise ValueError("A length cannot be negative.")
    return -wire_run_mass(area, outer, max(0.0, whole - left))


def joint_solder(each: float, count: float) -> float:
    """Solder of like joints.

    Formula: m = n s
    each: s, solder of one joint [kg]
    count: n, number of joints [1]
    Gives: m, mass of the solder [kg]
    Limits: nothing negative, else ValueError.
    Source: definition

    >>> round(joint_solder(0.00002, 10.0), 5)
    0.0002
    """
    if each < 0.0 or count < 0.0:
        raise ValueError("Neither a mass nor a count can be negative.")
    return count * each
