"""Capacitors: how they charge through a meter or a limiter, what they hold, and what rushes in."""

import math


def chirp_time(meter_resistance: float, capacitance: float, threshold: float) -> float:
    """How long a continuity meter sounds while it charges an empty capacitor.

    Formula: t = R C ln(1 + R_t / R)
    meter_resistance: R, source resistance of the meter in its continuity range [Ω]
    capacitance: C, capacitance across the probes [F]
    threshold: R_t, resistance below which the meter sounds [Ω]
    Gives: t, time of the sound [s]
    Limits: meter as a fixed voltage behind R; R above 0, the rest not negative, else ValueError.
    Source: the capacitor looks like R U / (U_0 - U); first-order circuit. About R_t C when R_t is
        small.

    >>> round(chirp_time(1000.0, 470e-6, 50.0), 4)
    0.0229
    """
    if meter_resistance <= 0.0 or capacitance < 0.0 or threshold < 0.0:
        raise ValueError("A chirp needs a source resistance above 0, and no negative values.")
    return meter_resistance * capacitance * math.log1p(threshold / meter_resistance)


def discharge_time(resistance: float, capacitance: float, volts: float, rest: float) -> float:
    """Time in which a resistor discharges a capacitor to what is safe to touch and to solder.

    Formula: t = R C ln(U_0 / U_1)
    resistance: R, resistor across the capacitor [Ω]
    capacitance: C, capacitance [F]
    volts: U_0, volts at the start [V]
    rest: U_1, volts at the end [V]
    Gives: t, time [s]
    Limits: U_1 above 0, the rest not negative, else ValueError; 0 where U_0 is not above U_1. What
        a board itself takes
        shortens it.
    Source: first-order circuit, definition

    >>> round(discharge_time(1000.0, 470e-6, 16.8, 1.0), 2)
    1.33
    """
    if rest <= 0.0 or min(resistance, capacitance, volts) < 0.0:
        raise ValueError("A discharge needs an end above 0 V, and no negative values.")
    return resistance * capacitance * math.log(max(volts / rest, 1.0))


def charge_time_at_limit(capacitance: float, volts: float, current: float) -> float:
    """How long a supply stays at its current limit while it charges an empty capacitor.

    Formula: t = C U / I
    capacitance: C, capacitance [F]
    volts: U, volts that are set [V]
    current: I, current limit [A]
    Gives: t, time [s]
    Limits: what the boards take meanwhile is left out; I above 0, the rest not negative, else
        ValueError.
    Source: charge balance

    >>> round(charge_time_at_limit(470e-6, 14.8, 0.3), 4)
    0.0232
    """
    if current <= 0.0 or min(capacitance, volts) < 0.0:
        raise ValueError("A limit has to be above 0 A, and no value negative.")
    return capacitance * volts / current


def capacitor_energy(capacitance: float, volts: float) -> float:
    """Energy in a charged capacitor.

    Formula: E = ½ C U²
    capacitance: C, capacitance [F]
    volts: U, volts [V]
    Gives: E, energy [J]
    Limits: none.
    Source: definition

    >>> round(capacitor_energy(470e-6, 25.2), 3)
    0.149
    """
    return 0.5 * capacitance * volts * volts


def inrush_current(volts: float, resistance: float) -> float:
    """Greatest current when a battery meets an empty capacitor.

    Formula: I = U / R
    volts: U, volts of the battery [V]
    resistance: R, resistance of battery, leads and capacitor together [Ω]
    Gives: I, current in the first instant [A]
    Limits: inductance left out, which makes the true peak lower; R above 0, else ValueError.
    Source: Ohm's law

    >>> round(inrush_current(16.8, 0.08), 0)
    210.0
    """
    if resistance <= 0.0:
        raise ValueError("A first instant's current needs a resistance above 0.")
    return volts / resistance
