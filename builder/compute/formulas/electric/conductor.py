"""Copper wire: size by gauge, resistance, drop, certain and fusing currents, warmth in still air."""

import math

RESISTIVITY = 1.7241e-8  # Ω·m at 20 °C, International Annealed Copper Standard
TEMPERATURE_COEFFICIENT = 0.00393  # 1/K at 20 °C
REFERENCE_TEMPERATURE = 293.15  # K
CIRCULAR_MIL = math.pi / 4.0 * 2.54e-5**2  # m²

# (AWG, amperes): conservative bundle ratings at 200 °C insulation, FAA AC 43.13-1B CHG 1 (2001),
# table 11-9.
BUNDLE_RATINGS = (
    (10, 32.0),
    (12, 25.0),
    (14, 18.0),
    (16, 14.0),
    (18, 12.0),
    (20, 9.0),
    (22, 6.0),
    (24, 5.0),
)


def awg_diameter(gauge: float) -> float:
    """Diameter of a solid wire of an American gauge number.

    Formula: d = 0.127 mm · 92^((36 - n) / 39)
    gauge: n, American wire gauge; 00 is -1, 000 is -2, 0000 is -3 [1]
    Gives: d, diameter of the bare wire [m]
    Limits: from 0000 to 56, else ValueError.
    Source: ASTM B258

    >>> round(awg_diameter(24) * 1000, 4)
    0.5106
    """
    if not -3.0 <= gauge <= 56.0:
        raise ValueError("American wire gauges run from 0000 to 56.")
    return 0.000127 * math.pow(92.0, (36.0 - gauge) / 39.0)


def wire_area(diameter: float) -> float:
    """Cross-section of a round wire.

    Formula: A = π d² / 4
    diameter: d, diameter of the bare wire [m]
    Gives: A, cross-section of the copper [m²]
    Limits: diameter not negative, else ValueError.
    Source: definition

    >>> round(wire_area(0.0005106) * 1e6, 4)
    0.2048
    """
    if diameter < 0.0:
        raise ValueError("A wire's diameter cannot be negative.")
    return math.pi * diameter * diameter / 4.0


def wire_diameter(area: float) -> float:
    """Diameter of the solid wire that has a cross-section.

    Formula: d = √(4 A / π)
    area: A, cross-section of the copper [m²]
    Gives: d, diameter [m]
    Limits: area not negative, else ValueError; a stranded wire is thicker by about a seventh.
    Source: definition

    >>> round(wire_diameter(0.5e-6) * 1000, 3)
    0.798
    """
    if area < 0.0:
        raise ValueError("A cross-section cannot be negative.")
    return math.sqrt(4.0 * area / math.pi)


def copper_resistivity(temperature: float) -> float:
    """Resistivity of annealed copper at a temperature.

    Formula: ρ = ρ₂₀ (1 + α (T - 293.15 K))
    temperature: T, temperature of the copper [K]
    Gives: ρ, resistivity [Ω·m]
    Limits: from -100 °C to 300 °C, else ValueError; ρ₂₀ = 1.7241·10⁻⁸ Ω·m, α = 0.00393 /K.
    Source: International Annealed Copper Standard, NBS Handbook 100 (1966) (from memory)

    >>> round(copper_resistivity(333.15) / copper_resistivity(293.15), 4)
    1.1572
    """
    if not 173.15 <= temperature <= 573.15:
        raise ValueError(
            "Copper's resistivity is taken as a straight line from -100 °C to 300 °C only."
        )
    return RESISTIVITY * (1.0 + TEMPERATURE_COEFFICIENT * (temperature - REFERENCE_TEMPERATURE))


def resistance_per_length(area: float, temperature: float) -> float:
    """Resistance of each metre of a solid copper wire.

    Formula: r = ρ(T) / A
    area: A, cross-section of the copper [m²]
    temperature: T, temperature of the copper [K]
    Gives: r, resistance of each metre [Ω/m]
    Limits: area above 0, temperature from -100 °C to 300 °C, else ValueError.
    Source: International Annealed Copper Standard, NBS Handbook 100 (1966) (from memory)

    >>> round(resistance_per_length(0.20473e-6, 293.15) * 1000, 2)
    84.21
    """
    if area <= 0.0:
        raise ValueError("A wire needs a cross-section above 0.")
    return copper_resistivity(temperature) / area


def stranded_resistance(resistance_per_length: float, allowance: float) -> float:
    """Resistance of each metre of a stranded wire from that of a solid one.

    Formula: r_s = r (1 + a)
    resistance_per_length: r, resistance of each metre of solid wire [Ω/m]
    allowance: a, allowance for lay, tin and tolerance, 0 to about 0.11 [1]
    Gives: r_s, resistance of each metre of stranded wire [Ω/m]
    Limits: allowance not negative, else ValueError.
    Source: FAA AC 43.13-1B, table 11-9: 24 AWG there is 11 % above solid copper.

    >>> round(stranded_resistance(0.08422, 0.11), 4)
    0.0935
    """
    if allowance < 0.0:
        raise ValueError("Strands never make a wire better than solid copper.")
    return resistance_per_length * (1.0 + allowance)


def wire_resistance(resistance_per_length: float, length: float) -> float:
    """Resistance of one wire from end to end.

    Formula: R = r l
    resistance_per_length: r, resistance of each metre [Ω/m]
    length: l, length of the wire, one way [m]
    Gives: R, resistance [Ω]
    Limits: joints and contacts are not in it.
    Source: definition

    >>> round(wire_resistance(0.08422, 0.06), 5)
    0.00505
    """
    return resistance_per_length * length


def drop_out_and_back(current: float, resistance_per_length: float, length: float) -> float:
    """Volts lost in a pair of wires, there and back.

    Formula: ΔU = 2 I r l
    current: I, current [A]
    resistance_per_length: r, resistance of each metre of one wire [Ω/m]
    length: l, length of the pair, one way [m]
    Gives: ΔU, volts lost [V]
    Limits: both wires alike; joints and contacts are not in it.
    Source: Ohm's law

    >>> round(drop_out_and_back(5.0, 0.084215, 1.0), 3)
    0.842
    """
    return 2.0 * current * resistance_per_length * length


def bundle_rating(gauge: float) -> float:
    """Current that a wire in a bundle carries for ever without further thought.

    Formula: I = rating at n in the table; a gauge between two counts as the thinner one
    gauge: n, American wire gauge, 10 to 24 [1]
    Gives: I, current that is certainly fine [A]
    Limits: 10 to 24 AWG, else ValueError; far too strict as a limit for a short lead in moving air.
    Source: FAA AC 43.13-1B CHG 1 (2001), table 11-9, insulation for 200 °C

    >>> bundle_rating(20)
    9.0
    """
    if gauge < BUNDLE_RATINGS[0][0] or gauge > BUNDLE_RATINGS[-1][0]:
        raise ValueError("The table of bundle ratings runs from 10 to 24 AWG.")
    return next(current for listed, current in BUNDLE_RATINGS if gauge <= listed)
