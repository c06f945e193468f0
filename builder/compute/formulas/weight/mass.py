"""Mass of wire and solder, centre of mass, and what each motor carries."""

import math

COPPER_DENSITY = 8890.0  # kg/m³ at 20 °C, IEC 60028 (from memory)


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
