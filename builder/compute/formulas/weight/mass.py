"""Mass of wire and solder, centre of mass, and what each motor carries."""

import math

COPPER_DENSITY = 8890.0  # kg/m³ at 20 °C, IEC 60028 (from memory)


def copper_mass(area: float, length: float) -> float:
    """Mass of the copper of a wire.

    Formula: m = ρ A l
    area: A, cross-section of the copper [m²]
    length: l, length of the wire [m]
    Gives: m, mass [kg]
    Limits: solid or stranded without lay; area and length not negative, else ValueError.
    Source: definition; ρ = 8890 kg/m³, IEC 60028 (from memory)

    >>> round(copper_mass(0.51762e-6, 0.84) * 1000, 2)
    3.87
    """
    if area < 0.0 or length < 0.0:
        raise ValueError("Neither a cross-section nor a length can be negative.")
    return COPPER_DENSITY * area * length


def insulation_mass(
    bare_diameter: float, outer_diameter: float, length: float, density: float
) -> float:
    """Mass of the insulation of a wire.

    Formula: m = ρ π (D² - d²) / 4 · l
    bare_diameter: d, diameter of the copper [m]
    outer_diameter: D, diameter over the insulation [m]
    length: l, length of the wire [m]
    density: ρ, density of the insulation; silicone about 1200, PTFE 2200 [kg/m³]
    Gives: m, mass [kg]
    Limits: D not below d, nothing negative, else ValueError.
    Source: definition; the densities from memory

    >>> round(insulation_mass(0.00092, 0.0018, 1.0, 1200.0) * 1000, 2)
    2.26
    """
    if not 0.0 <= bare_diameter <= outer_diameter or length < 0.0 or density < 0.0:
        raise ValueError("A wire is no thinner than its copper, and nothing of it is negative.")
    return density * math.pi * (outer_diameter**2 - bare_diameter**2) / 4.0 * length


def fillet_volume(pad_length: float, pad_width: float, wire_diameter: float) -> float:
    """Volume of the solder that holds a wire lying on a pad.

    Formula: V = l ((w + d) d / 2 - π d² / 4)
    pad_length: l, length of wire on the pad [m]
    pad_width: w, width of the pad across the wire [m]
    wire_diameter: d, diameter of the bare wire [m]
    Gives: V, volume of the solder [m³]
    Limits: slopes run straight from the pad's edges to the wire's top; w not below d, nothing
        negative, else ValueError.
    Source: common practice, no source (geometry of a sound fillet)

    >>> round(fillet_volume(0.003, 0.002, 0.001) * 1e9, 2)
    2.14
    """
    if pad_length < 0.0 or not 0.0 <= wire_diameter <= pad_width:
        raise ValueError("A wire lies on a pad that is at least as wide as itself.")
    return pad_length * (
        (pad_width + wire_diameter) * wire_diameter / 2.0 - math.pi * wire_diameter**2 / 4.0
    )


def cup_volume(inner_diameter: float, wire_diameter: float, depth: float) -> float:
    """Volume of the solder in a connector's cup.

    Formula: V = π (D² - d²) / 4 · t
    inner_diameter: D, inner diameter of the cup [m]
    wire_diameter: d, diameter of the bare wire [m]
    depth: t, depth of the cup [m]
    Gives: V, volume of the solder [m³]
    Limits: the wire reaches the bottom; d not above D, nothing negative, else ValueError.
    Source: common practice, no source (geometry)

    >>> round(cup_volume(0.003, 0.002, 0.004) * 1e9, 1)
    15.7
    """
    if not 0.0 <= wire_diameter <= inner_diameter or depth < 0.0:
        raise ValueError("The wire fits into the cup, and nothing is negative.")
    return math.pi * (inner_diameter**2 - wire_diameter**2) / 4.0 * depth


def mass_of_volume(volume: float, density: float) -> float:
    """Mass of a volume of solder, or of anything.

    Formula: m = ρ V
    volume: V, volume [m³]
    density: ρ, density [kg/m³]
    Gives: m, mass [kg]
    Limits: none.
    Source: definition

    >>> round(mass_of_volume(2.14e-9, 8400.0) * 1e6, 1)
    18.0
    """
    return density * volume


def centre_of_mass(masses: tuple[float, ...], places: tuple[float, ...]) -> float:
    """Centre of mass along one axis.

    Formula: x̄ = Σ m_i x_i / Σ m_i
    masses: m_i, masses [kg]
    places: x_i, places of their own centres along the axis [m]
    Gives: x̄, centre of mass [m]
    Limits: a place for each mass, masses not negative, their sum above 0, else ValueError.
    Source: definition

    >>> round(centre_of_mass((0.17, 0.07), (0.002, -0.01)) * 1000, 2)
    -1.5
    """
    if len(masses) != len(places) or min(masses, default=0.0) < 0.0 or math.fsum(masses) <= 0.0:
        raise ValueError(
            "A centre of mass needs masses that are not negative, not all 0, and a place for each."
        )
    return math.fsum(m * x for m, x in zip(masses, places, strict=True)) / math.fsum(masses)


def centre_of_masses(*masses_and_places: float) -> float:
    """Centre of mass along one axis, masses and places given in turn, each a figure of its own.

    Formula: x̄ = Σ m_i x_i / Σ m_i
    masses_and_places: m_i, masses in kg, each followed by its place x_i in m [1]
    Gives: x̄, centre of mass [m]
    Limits: a place for each mass, masses not negative, their sum above 0, else ValueError.
    Source: definition

    >>> round(centre_of_masses(0.17, 0.002, 0.07, -0.01) * 1000, 2)
    -1.5
    """
    return centre_of_mass(masses_and_places[0::2], masses_and_places[1::2])


def trim_place(wanted: float, rest_mass: float, rest_centre: float, mass: float) -> float:
    """Where along an axis one part has to lie so that the whole balances at a wanted place.

    Formula: x = (x_w (M + m) - M X) / m
    wanted: x_w, wanted centre of mass, as a rule the centre of the rotors [m]
    rest_mass: M, mass of all other parts [kg]
    rest_centre: X, centre of mass of all other parts [m]
    mass: m, mass of the part to be moved, as a rule the battery [kg]
    Gives: x, place of its centre [m]
    Limits: m above 0, else ValueError.
    Source: centre of mass solved for one place

    >>> round(trim_place(0.0, 0.17, 0.002, 0.07) * 1000, 2)
    -4.86
    """
    if mass <= 0.0:
        raise ValueError("Only a part with mass can trim the balance.")
    return (wanted * (rest_mass + mass) - rest_mass * rest_centre) / mass


def hover_share(
    along: float,
    across: float,
    rotors_along: tuple[float, ...],
    rotors_across: tuple[float, ...],
    rotor: float,
) -> float:
    """Share of the weight that one rotor carries at hover when the centre of mass is off the
        middle.

    Formula: s_k = 1/n + (x_k - x̄) a + (y_k - ȳ) b with Σ s x = x_m and Σ s y = y_m
    along: x_m, centre of mass fore and aft [m]
    across: y_m, centre of mass left and right [m]
    rotors_along: x_k, places of the rotors fore and aft [m]
    rotors_across: y_k, places of the rotors left and right [m]
    rotor: k, which rotor, counted from 0 [1]
    Gives: s_k, share of the weight; negative where no hover is possible [1]
    Limits: the split with the least sum of squares; rotors not all in one line, else ValueError.
    Source: statics, least-norm solution

    >>> round(hover_share(0.003, 0.0, (0.05, 0.05, -0.05, -0.05), (0.06, -0.06, 0.06, -0.06), 0), 3)
    0.265
    """
    count = len(rotors_along)
    if count != len(rotors_across) or count < 3 or not 0 <= rotor < count:
        raise ValueError(
            "Shares at hover need three rotors or more, each with a place along and across."
        )
    mid_x, mid_y = math.fsum(rotors_along) / count, math.fsum(rotors_across) / count
    xs, ys = [x - mid_x for x in rotors_along], [y - mid_y for y in rotors_across]
    xx, yy = math.fsum(x * x for x in xs), math.fsum(y * y for y in ys)
    xy = math.fsum(x * y for x, y in zip(xs, ys, strict=True))
    spread = xx * yy - xy * xy
    if spread <= 1e-12 * (xx + yy) ** 2:
        raise ValueError("Rotors that all stand in one line cannot balance.")
    slope_x = (yy * (along - mid_x) - xy * (across - mid_y)) / spread
    slope_y = (xx * (across - mid_y) - xy * (along - mid_x)) / spread
    k = int(rotor)
    return 1.0 / count + xs[k] * slope_x + ys[k] * slope_y


def symmetric_hover_share(
    count: float,
    along: float,
    across: float,
    rotor_along: float,
    rotor_across: float,
    squares_along: float,
    squares_across: float,
) -> float:
    """Share of the weight that one rotor carries at hover on a frame that is alike left and right.

    Formula: s_k = 1/n + x_k x_m / Σ x² + y_k y_m / Σ y²
    count: n, number of rotors [1]
    along: x_m, centre of mass fore and aft of the rotors' centre [m]
    across: y_m, centre of mass left and right of the rotors' centre [m]
    rotor_along: x_k, place of this rotor fore and aft of the rotors' centre [m]
    rotor_across: y_k, place of this rotor left and right of the rotors' centre [m]
    squares_along: Σ x², sum of all rotors' squared places fore and aft [m²]
    squares_across: Σ y², sum of all rotors' squared places left and right [m²]
    Gives: s_k, share of the weight; negative where no hover is possible [1]
    Limits: the split with the least sum of squares; count and sums above 0, else ValueError.
    Source: statics, least-norm solution

    >>> round(symmetric_hover_share(4, 0.003, 0.0, 0.05, 0.06, 0.01, 0.0144), 3)
    0.265
    """
    if min(count, squares_along, squares_across) <= 0.0:
        raise ValueError("Shares at hover need rotors that do not all stand in one line.")
    return (
        1.0 / count + rotor_along * along / squares_along + rotor_across * across / squares_across
    )
