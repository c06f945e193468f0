"""The heat of a solder joint: how much it takes, what the iron can give, how long that lasts."""

import math


def warming_heat(mass: float, heat_capacity: float, rise: float) -> float:
    """Heat that warms a mass.

    Formula: Q = m c ΔT
    mass: m, mass [kg]
    heat_capacity: c, specific heat capacity [J/kg/K]
    rise: ΔT, rise of temperature [K]
    Gives: Q, heat [J]
    Limits: heat capacity constant over the rise.
    Source: definition

    >>> round(warming_heat(0.0001, 384.0, 200.0), 2)
    7.68
    """
    return mass * heat_capacity * rise


def melting_heat(mass: float, latent_heat: float) -> float:
    """Heat that melts a mass which is already at its melting point.

    Formula: Q = m L
    mass: m, mass [kg]
    latent_heat: L, latent heat of fusion; 45 kJ/kg for tin-lead, 65 for tin-silver-copper [J/kg]
    Gives: Q, heat [J]
    Limits: none.
    Source: definition; the latent heats from memory

    >>> round(melting_heat(0.00005, 45000.0), 2)
    2.25
    """
    return mass * latent_heat


def joint_heat(wire_heat: float, pad_heat: float, solder_heat: float, melting_heat: float) -> float:
    """Heat that a joint takes in, all parts together.

    Formula: Q = Q_w + Q_p + Q_s + Q_m
    wire_heat: Q_w, heat that warms the end of the wire [J]
    pad_heat: Q_p, heat that warms the pad [J]
    solder_heat: Q_s, heat that warms the solder [J]
    melting_heat: Q_m, heat that melts the solder [J]
    Gives: Q, heat of the joint [J]
    Limits: what the wire and the board lead away meanwhile is not in it.
    Source: definition

    >>> joint_heat(4.0, 1.0, 1.5, 2.0)
    8.5
    """
    return wire_heat + pad_heat + solder_heat + melting_heat


def conduction_heat(conductivity: float, area: float, length: float, difference: float) -> float:
    """Heat that flows along a bar.

    Formula: q = k A Δθ / l
    conductivity: k, thermal conductivity of the bar [W/m/K]
    area: A, cross-section of the bar [m²]
    length: l, length of the bar [m]
    difference: Δθ, difference of temperature between its ends [K]
    Gives: q, heat flow [W]
    Limits: steady, nothing lost on the way; length above 0, else ValueError.
    Source: Fourier's law, Incropera and DeWitt, ch. 1 (from memory)

    >>> round(conduction_heat(120.0, 1.6e-6, 0.01, 200.0), 2)
    3.84
    """
    if length <= 0.0:
        raise ValueError("Heat flows along a bar that has a length.")
    return conductivity * area * difference / length


def loss_conductance(heat_flow: float, excess: float) -> float:
    """Heat that a joint loses for each kelvin above the air.

    Formula: L = q / θ
    heat_flow: q, heat flow into wire and board at the excess temperature [W]
    excess: θ, temperature of the joint above the air [K]
    Gives: L, loss for each kelvin [W/K]
    Limits: excess above 0, else ValueError.
    Source: definition

    >>> round(loss_conductance(8.3, 75.0), 4)
    0.1107
    """
    if excess <= 0.0:
        raise ValueError("A loss for each kelvin needs a joint warmer than the air.")
    return heat_flow / excess


def end_temperature(
    iron: float, ambient: float, tip_conductance: float, loss_conductance: float
) -> float:
    """Temperature at which a joint under the iron stops rising.

    Formula: T_e = (G T_i + L T_a) / (G + L)
    iron: T_i, temperature of the tip [K]
    ambient: T_a, temperature of the air [K]
    tip_conductance: G, heat from tip to joint for each kelvin between them [W/K]
    loss_conductance: L, heat lost by the joint for each kelvin above the air [W/K]
    Gives: T_e, final temperature of the joint [K]
    Limits: the tip holds its temperature; conductances not negative, one above 0, else ValueError.
    Source: two thermal resistances in series

    >>> round(end_temperature(653.15, 298.15, 0.2, 0.05), 2)
    582.15
    """
    if min(tip_conductance, loss_conductance) < 0.0 or tip_conductance + loss_conductance <= 0.0:
        raise ValueError("Conductances of heat are 0 or more, and one of them is above 0.")
    return (tip_conductance * iron + loss_conductance * ambient) / (
        tip_conductance + loss_conductance
    )


def dwell_time(
    heat: float,
    working: float,
    iron: float,
    ambient: float,
    tip_conductance: float,
    loss_conductance: float,
) -> float:
    """Time for which the iron stays until the joint has its working temperature.

    Formula: t = C / (G + L) · ln((T_e - T_a) / (T_e - T_w)), C = Q / (T_w - T_a),
        T_e = (G T_i + L T_a) / (G + L)
    heat: Q, heat that the joint takes in up to its working temperature [J]
    working: T_w, working temperature of the joint [K]
    iron: T_i, temperature of the tip [K]
    ambient: T_a, temperature of the air [K]
    tip_conductance: G, heat from tip to joint for each kelvin between them [W/K]
    loss_conductance: L, heat lost by the joint for each kelvin above the air [W/K]
    Gives: t, dwell [s]
    Limits: the joint warms as one lump; T_a below T_w, and T_w below T_e, where the joint would
        settle, else ValueError; heat not negative.
    Source: lumped capacity, Incropera and DeWitt, ch. 5 (from memory)

    >>> round(dwell_time(8.5, 513.15, 653.15, 298.15, 0.05, 0.01), 2)
    0.85
    """
    if heat < 0.0 or working <= ambient:
        raise ValueError(
            "A joint takes heat of 0 or more, and works above the temperature of the air."
        )
    end = end_temperature(iron, ambient, tip_conductance, loss_conductance)
    if end <= working:
        raise ValueError("With this tip and temperature the joint never gets hot enough.")
    capacity = heat / (working - ambient)
    return (
        capacity
        / (tip_conductance + loss_conductance)
        * math.log((end - ambient) / (end - working))
    )
