"""Heat led away from a joint: along the wire as along a fin, and outwards in the copper of a board."""

import math


def round_perimeter(diameter: float) -> float:
    """Perimeter of a round wire.

    Formula: P = π d
    diameter: d, diameter [m]
    Gives: P, perimeter [m]
    Limits: none.
    Source: definition

    >>> round(round_perimeter(0.005) * 1000, 3)
    15.708
    """
    return math.pi * diameter


def long_fin_heat(
    film: float, perimeter: float, conductivity: float, area: float, excess: float
) -> float:
    """Heat that flows into a fin so long that its end is cold.

    Formula: q = √(h P k A) θ
    film: h, heat given off to the air for each square metre and kelvin [W/m²/K]
    perimeter: P, perimeter of the fin [m]
    conductivity: k, thermal conductivity of the fin [W/m/K]
    area: A, cross-section of the fin [m²]
    excess: θ, temperature of the base above the air [K]
    Gives: q, heat flow [W]
    Limits: steady; no input negative, else ValueError.
    Source: Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, ch. 3 (from memory)

    >>> round(long_fin_heat(100.0, 0.015708, 398.0, 1.9635e-5, 75.0), 1)
    8.3
    """
    if min(film, perimeter, conductivity, area) < 0.0:
        raise ValueError("No property of a fin can be negative.")
    return math.sqrt(film * perimeter * conductivity * area) * excess


def film_through_insulation(
    film: float, bare_diameter: float, outer_diameter: float, insulation_conductivity: float
) -> float:
    """Heat that an insulated wire gives off, counted on the surface of its copper.

    Formula: h' = 1 / (d / (h D) + d ln(D / d) / (2 k_i))
    film: h, heat given off to the air for each square metre of the outside and kelvin [W/m²/K]
    bare_diameter: d, diameter of the copper [m]
    outer_diameter: D, diameter over the insulation [m]
    insulation_conductivity: k_i, thermal conductivity of the insulation [W/m/K]
    Gives: h', heat given off for each square metre of copper surface and kelvin [W/m²/K]
    Limits: all above 0, D not below d, else ValueError.
    Source: cylindrical wall, Incropera and DeWitt, ch. 3 (from memory)

    >>> round(film_through_insulation(20.0, 0.00051, 0.0011, 0.2), 2)
    41.39
    """
    if min(film, bare_diameter, insulation_conductivity) <= 0.0 or outer_diameter < bare_diameter:
        raise ValueError("An insulated wire is no thinner than its copper, and nothing of it is 0.")
    outside = bare_diameter / (film * outer_diameter)
    wall = (
        bare_diameter * math.log(outer_diameter / bare_diameter) / (2.0 * insulation_conductivity)
    )
    return 1.0 / (outside + wall)


def ring_heat(
    conductivity: float,
    thickness: float,
    inner_radius: float,
    outer_radius: float,
    difference: float,
) -> float:
    """Heat that flows outwards through a sheet between two circles.

    Formula: q = 2π k t Δθ / ln(r₂ / r₁)
    conductivity: k, thermal conductivity of the sheet [W/m/K]
    thickness: t, thickness of the sheet [m]
    inner_radius: r₁, radius of the hot circle [m]
    outer_radius: r₂, radius of the cold circle [m]
    difference: Δθ, difference of temperature [K]
    Gives: q, heat flow [W]
    Limits: steady, nothing lost to the air between; r₁ above 0 and below r₂, else ValueError.
    Source: Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, ch. 3 (from memory)

    >>> round(ring_heat(401.0, 70e-6, 0.002, 0.018, 200.0), 2)
    16.05
    """
    if not 0.0 < inner_radius < outer_radius:
        raise ValueError(
            "Heat flows outwards between two circles of which the inner one is smaller."
        )
    return (
        2.0
        * math.pi
        * conductivity
        * thickness
        * difference
        / math.log(outer_radius / inner_radius)
    )


def soaked_heat(capacity: float, inner_radius: float, outer_radius: float, excess: float) -> float:
    """Heat that a sheet has taken up once heat flows outwards through it from a hot circle to a
        cold one.

    Formula: Q = 2π c θ ((r₂² - r₁²) / (4 ln(r₂ / r₁)) - r₁² / 2)
    capacity: c, heat capacity of the sheet for each square metre [J/m²/K]
    inner_radius: r₁, radius of the hot circle [m]
    outer_radius: r₂, radius of the cold circle [m]
    excess: θ, temperature of the hot circle above the cold one [K]
    Gives: Q, heat [J]
    Limits: steady profile, nothing lost to the air; r₁ above 0 and below r₂, else ValueError.
    Source: integral of the profile in Incropera and DeWitt, ch. 3, over the ring

    >>> round(soaked_heat(3500.0, 0.002, 0.015, 200.0), 1)
    111.8
    """
    if not 0.0 < inner_radius < outer_radius:
        raise ValueError(
            "Heat flows outwards between two circles of which the inner one is smaller."
        )
    squares = (outer_radius**2 - inner_radius**2) / (4.0 * math.log(outer_radius / inner_radius))
    return 2.0 * math.pi * capacity * excess * (squares - inner_radius**2 / 2.0)
