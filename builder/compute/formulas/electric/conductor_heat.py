"""How warm a wire gets, and when it melts."""

import math

from builder.compute.formulas.constants import ZERO_CELSIUS
from builder.compute.formulas.electric.conductor import (
    CIRCULAR_MIL,
    RESISTIVITY,
    TEMPERATURE_COEFFICIENT,
    resistance_per_length,
)

COPPER_MELTS = 1083.0  # °C, as in Onderdonk's equation


def onderdonk_current(area: float, time: float, ambient: float) -> float:
    """Current that melts a copper wire within a time, all heat staying in the wire.

    Formula: I = A_cmil √(log₁₀(1 + (1083 - t_a) / (234 + t_a)) / (33 t)), t_a = T_a - 273.15 K
    area: A, cross-section of the copper; A_cmil is the same in circular mils [m²]
    time: t, duration of the current [s]
    ambient: T_a, temperature before [K]
    Gives: I, fusing current [A]
    Limits: up to about 10 s; area and time above 0, start below melting; else ValueError.
    Source: Onderdonk's equation as in handbooks; the copy with 234 - t_a is wrong.

    >>> round(onderdonk_current(0.20473e-6, 10.0, 298.15), 1)
    18.7
    """
    if area <= 0.0 or time <= 0.0:
        raise ValueError("A fusing current needs a cross-section and a time above 0.")
    start = ambient - ZERO_CELSIUS
    if not -234.0 < start < COPPER_MELTS:
        raise ValueError("The wire starts above -234 °C and below the melting point of copper.")
    return (
        area
        / CIRCULAR_MIL
        * math.sqrt(math.log10(1.0 + (COPPER_MELTS - start) / (234.0 + start)) / (33.0 * time))
    )


def time_to_melt(current: float, area: float, ambient: float) -> float:
    """Time for which copper bears a current, without any heat lost, until it melts.

    Formula: t = A_cmil² log₁₀(1 + (1083 - t_a) / (234 + t_a)) / (33 I²), t_a = T_a - 273.15 K
    current: I, current [A]
    area: A, cross-section of the copper; A_cmil is the same in circular mils [m²]
    ambient: T_a, temperature before [K]
    Gives: t, time until it melts [s]
    Limits: current and area above 0, else ValueError; up to about 10 s, for heat is lost later.
    Source: Onderdonk's equation as in onderdonk_current, solved for the time

    >>> round(time_to_melt(100.0, 8.23e-7, 298.15), 1)
    5.6
    """
    if min(current, area) <= 0.0:
        raise ValueError("A current through copper is above 0, and so is its cross-section.")
    return (onderdonk_current(area, 1.0, ambient) / current) ** 2


def wire_temperature_rise(
    current: float, area: float, outer_diameter: float, film: float, ambient: float
) -> float:
    """How much warmer than the air a long wire gets when its current never stops.

    Formula: ΔT = I² ρ(T_a) / A / (h π D - I² ρ₂₀ α / A)
    current: I, current [A]
    area: A, cross-section of the copper [m²]
    outer_diameter: D, diameter over the insulation [m]
    film: h, heat given off to the air for each square metre and kelvin, radiation with it [W/m²/K]
    ambient: T_a, temperature of the air [K]
    Gives: ΔT, rise of the wire above the air [K]
    Limits: no heat leaves at the ends, none is held up by the insulation; area, diameter and film
        above 0, else ValueError; ValueError too where the wire would get hotter without end.
    Source: heat balance of a cylinder (Incropera and DeWitt, ch. 3); copper as in NBS Handbook 100

    >>> round(wire_temperature_rise(5.0, 0.20473e-6, 0.0011, 20.0, 298.15), 1)
    35.3
    """
    if min(area, outer_diameter, film) <= 0.0:
        raise ValueError("A wire's warmth needs cross-section, diameter and film above 0.")
    loss = film * math.pi * outer_diameter
    feedback = current * current * RESISTIVITY * TEMPERATURE_COEFFICIENT / area
    if feedback >= loss:
        raise ValueError("At this current the wire would get hotter without end.")
    return current * current * resistance_per_length(area, ambient) / (loss - feedback)


def current_for_rise(
    rise: float, area: float, outer_diameter: float, film: float, ambient: float
) -> float:
    """Current that keeps a long wire a stated number of kelvins above the air.

    Formula: I = √(h π D ΔT A / ρ(T_a + ΔT))
    rise: ΔT, rise of the wire above the air [K]
    area: A, cross-section of the copper [m²]
    outer_diameter: D, diameter over the insulation [m]
    film: h, heat given off to the air for each square metre and kelvin, radiation with it [W/m²/K]
    ambient: T_a, temperature of the air [K]
    Gives: I, current [A]
    Limits: no heat leaves at the ends; rise not negative, area, diameter and film above 0, else
        ValueError.
    Source: heat balance of a cylinder (Incropera and DeWitt, ch. 3); copper as in NBS Handbook 100

    >>> round(current_for_rise(60.0, 0.20473e-6, 0.0011, 20.0, 298.15), 2)
    6.26
    """
    if rise < 0.0 or min(area, outer_diameter, film) <= 0.0:
        raise ValueError("A current for a rise needs a rise of 0 or more, and all else above 0.")
    return math.sqrt(
        film * math.pi * outer_diameter * rise / resistance_per_length(area, ambient + rise)
    )
