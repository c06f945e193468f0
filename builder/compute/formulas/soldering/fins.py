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


def fin_constant(film: float, perimeter: float, conductivity: float, area: float) -> float:
    """How fast a fin cools along its length.

    Formula: m = √(h P / (k A))
    film: h, heat given off to the air for each square metre and kelvin [W/m²/K]
    perimeter: P, perimeter of the fin [m]
    conductivity: k, thermal conductivity of the fin [W/m/K]
    area: A, cross-section of the fin [m²]
    Gives: m, after 1/m the excess temperature has fallen to 1/e in a long fin [1/m]
    Limits: film not negative, the rest above 0, else ValueError.
    Source: Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, ch. 3 (from memory)

    >>> round(fin_constant(100.0, 0.015708, 398.0, 1.9635e-5), 2)
    14.18
    """
    if film < 0.0 or min(perimeter, conductivity, area) <= 0.0:
        raise ValueError(
            "A fin needs a film of 0 or more, and perimeter, conductivity and area above 0."
        )
    return math.sqrt(film * perimeter / (conductivity * area))


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


def fin_heat(
    film: float, perimeter: float, conductivity: float, area: float, length: float, excess: float
) -> float:
    """Heat that flows into a fin of some length, its end giving off heat too.

    Formula: q = √(h P k A) θ tanh(m (l + A / P)), m = √(h P / (k A))
    film: h, heat given off to the air for each square metre and kelvin [W/m²/K]
    perimeter: P, perimeter of the fin [m]
    conductivity: k, thermal conductivity of the fin [W/m/K]
    area: A, cross-section of the fin [m²]
    length: l, length of the fin [m]
    excess: θ, temperature of the base above the air [K]
    Gives: q, heat flow [W]
    Limits: steady, end allowed for by a corrected length; film and length not negative, the rest
        above 0, else ValueError.
    Source: Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, ch. 3 (from memory)

    >>> round(fin_heat(100.0, 0.015708, 398.0, 1.9635e-5, 0.05, 75.0), 2)
    5.16
    """
    if length < 0.0:
        raise ValueError("A fin's length cannot be negative.")
    constant = fin_constant(film, perimeter, conductivity, area)
    return long_fin_heat(film, perimeter, conductivity, area, excess) * math.tanh(
        constant * (length + area / perimeter)
    )


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


def plane_heat(
    film: float,
    thickness: float,
    conductivity: float,
    inner_radius: float,
    outer_radius: float,
    excess: float,
) -> float:
    """Heat that a pad loses into a copper plane around it, which gives it to the air on both sides.

    Formula: q = 2π r₁ k t m θ (K₁(m r₁) I₁(m r₂) - I₁(m r₁) K₁(m r₂))
        / (K₀(m r₁) I₁(m r₂) + I₀(m r₁) K₁(m r₂)), m = √(2 h / (k t))
    film: h, heat given off to the air for each square metre of one side and kelvin [W/m²/K]
    thickness: t, thickness of all copper layers together [m]
    conductivity: k, thermal conductivity of copper [W/m/K]
    inner_radius: r₁, radius of the pad [m]
    outer_radius: r₂, radius of the plane [m]
    excess: θ, temperature of the pad above the air [K]
    Gives: q, heat flow [W]
    Limits: steady, edge insulated, board material left out; r₁ below r₂, all above 0, m r₂ up to
        300; else ValueError.
    Source: annular fin, Incropera and DeWitt, table 3.5 (from memory)

    >>> round(plane_heat(20.0, 70e-6, 401.0, 0.002, 0.018, 200.0), 2)
    6.02
    """
    if min(film, thickness, conductivity) <= 0.0 or not 0.0 < inner_radius < outer_radius:
        raise ValueError(
            "A plane needs film, thickness and conductivity above 0, and a pad smaller than itself."
        )
    constant = math.sqrt(2.0 * film / (conductivity * thickness))
    inner, outer = constant * inner_radius, constant * outer_radius
    if outer > 300.0:
        raise ValueError("The plane is too large, or the film too strong, for this formula.")
    k0, k1, k1_edge = _bessel_k(0, inner), _bessel_k(1, inner), _bessel_k(1, outer)
    i0, i1, i1_edge = _bessel_i(0, inner), _bessel_i(1, inner), _bessel_i(1, outer)
    share = (k1 * i1_edge - i1 * k1_edge) / (k0 * i1_edge + i0 * k1_edge)
    return 2.0 * math.pi * inner_radius * conductivity * thickness * constant * excess * share


def _bessel_k(order: int, x: float) -> float:
    """Modified Bessel function of the second kind: ∫ e^(-x cosh u) cosh(n u) du from 0, by
    trapezia.
    """
    step, total, n = 0.05, 0.5 * math.exp(-x), 0
    while True:
        n += 1
        depth = x * math.cosh(n * step)
        if depth > 720.0:
            return step * total
        total += math.exp(-depth) * math.cosh(order * n * step)


def _bessel_i(order: int, x: float) -> float:
    """Modified Bessel function of the first kind by its power series (orders 0 and 1)."""
    term = (x / 2.0) ** order
    total, n = term, 0
    while term > 1e-17 * total:
        n += 1
        term *= x * x / 4.0 / (n * (n + order))
        total += term
    return total
