"""Supplies at the bench and on the board: converters, drops along a path, limits."""

import math


def converter_input_current(
    volts_out: float, current_out: float, volts_in: float, efficiency: float
) -> float:
    """Current that a switching converter takes from its supply.

    Formula: I_i = U_o I_o / (η U_i)
    volts_out: U_o, volts that it gives [V]
    current_out: I_o, current that it gives [A]
    volts_in: U_i, volts at its input [V]
    efficiency: η, efficiency at this load [1]
    Gives: I_i, current at the input [A]
    Limits: steady; U_i above 0, η above 0 and at most 1, else ValueError. Stepping up or down.
    Source: power balance

    >>> round(converter_input_current(5.0, 1.2, 14.8, 0.85), 3)
    0.477
    """
    if volts_in <= 0.0 or not 0.0 < efficiency <= 1.0:
        raise ValueError(
            "A converter needs volts at its input, and an efficiency above 0 and at most 1."
        )
    return volts_out * current_out / (efficiency * volts_in)


def linear_regulator_heat(volts_in: float, volts_out: float, current: float) -> float:
    """Heat that a linear regulator turns into warmth.

    Formula: P = (U_i - U_o) I
    volts_in: U_i, volts at its input [V]
    volts_out: U_o, volts that it gives [V]
    current: I, current through it [A]
    Gives: P, power lost [W]
    Limits: its own small current left out; input not below output, else ValueError.
    Source: Ohm's law

    >>> round(linear_regulator_heat(8.4, 3.3, 0.1), 2)
    0.51
    """
    if volts_in < volts_out:
        raise ValueError("A linear regulator cannot give more volts than it gets.")
    return (volts_in - volts_out) * current


def drop(current: float, resistance: float) -> float:
    """Volts lost in one piece of a path.

    Formula: ΔU = I R
    current: I, current [A]
    resistance: R, resistance [Ω]
    Gives: ΔU, volts lost [V]
    Limits: steady.
    Source: Ohm's law

    >>> round(drop(40.0, 0.003), 2)
    0.12
    """
    return current * resistance


def wire_pair_resistance(resistance_per_length: float, length: float) -> float:
    """Resistance of a pair of wires, there and back.

    Formula: R = 2 r l
    resistance_per_length: r, resistance of each metre of one wire [Ω/m]
    length: l, length of the pair, one way [m]
    Gives: R, resistance [Ω]
    Limits: both wires alike; joints and contacts are not in it.
    Source: definition

    >>> round(wire_pair_resistance(0.084215, 1.0), 5)
    0.16843
    """
    return 2.0 * resistance_per_length * length


def shared_current(current: float, count: float) -> float:
    """Current of one of several alike paths in parallel.

    Formula: I₁ = I / n
    current: I, current of all together [A]
    count: n, paths in parallel [1]
    Gives: I₁, current of each [A]
    Limits: the paths are alike; count above 0, else ValueError.
    Source: Kirchhoff's current law

    >>> shared_current(30.0, 2.0)
    15.0
    """
    if count <= 0.0:
        raise ValueError("A current is shared by one path or more.")
    return current / count


def series_resistance(*resistances: float) -> float:
    """Resistance of pieces one after another.

    Formula: R = Σ R_k
    resistances: R_k, resistance of each piece [Ω]
    Gives: R, resistance of all [Ω]
    Limits: none.
    Source: Kirchhoff's laws

    >>> round(series_resistance(0.024, 0.003, 0.001), 3)
    0.028
    """
    return math.fsum(resistances)


def supply_limit(starting_current: float) -> float:
    """Current limit to set at the bench supply for a first power-up.

    Formula: I = max(1.5 I_s + 0.1 A, 0.3 A)
    starting_current: I_s, current of all loads of this gate as they start [A]
    Gives: I, limit to set [A]
    Limits: current not negative, else ValueError; the corner lies at I_s = 0.133 A.
    Source: common practice, no source

    >>> round(supply_limit(0.4), 2)
    0.7
    """
    if starting_current < 0.0:
        raise ValueError("A starting current cannot be negative.")
    return max(1.5 * starting_current + 0.1, 0.3)


def electrical_load(volts: float, current: float) -> float:
    """Power that a load takes.

    Formula: P = U I
    volts: U, volts across the load [V]
    current: I, current through it [A]
    Gives: P, power [W]
    Limits: nothing negative, else ValueError.
    Source: definition

    >>> electrical_load(14.8, 0.5)
    7.4
    """
    if volts < 0.0 or current < 0.0:
        raise ValueError("Neither volts nor a current of a load can be negative.")
    return volts * current


def current_of_power(power: float, count: float, volts: float, efficiency: float) -> float:
    """Current from the battery of like parts that take a power through a converter.

    Formula: I = n P / (η U)
    power: P, power of one part [W]
    count: n, number of parts [1]
    volts: U, volts of the pack [V]
    efficiency: η, share of the power that the converter passes on [1]
    Gives: I, current from the pack [A]
    Limits: volts and efficiency above 0, else ValueError.
    Source: definition

    >>> round(current_of_power(1.0, 1.0, 14.8, 0.85), 4)
    0.0795
    """
    if volts <= 0.0 or efficiency <= 0.0:
        raise ValueError("Volts and efficiency are above 0.")
    return count * power / (efficiency * volts)
