"""Charge left in a cell by its resting volts, what cold does to it, and what a log tells."""

import math
from itertools import pairwise

from builder.compute.formulas.rotors.interpolate import linear, monotone

# Resting volts of a cell by the share of charge left. Common practice, no source (from memory):
# lithium-polymer of high rate, and lithium-ion with a nickel-rich cathode. Single cells differ by
# about 0.02 V and 0.05 V.
SHARES = (0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0)
LITHIUM_POLYMER_VOLTS = (3.27, 3.69, 3.73, 3.77, 3.80, 3.84, 3.87, 3.95, 4.02, 4.11, 4.20)
LITHIUM_ION_VOLTS = (2.80, 3.30, 3.45, 3.54, 3.61, 3.68, 3.76, 3.86, 3.96, 4.06, 4.20)

# Capacity of a high-rate cell at 6.9 times its capacity an hour, as printed in one maker's data
# sheet.
COLD_TEMPERATURES = (253.15, 263.15, 273.15, 298.15)  # K
COLD_SHARES = (0.60, 0.75, 0.80, 1.00)
ROOM_TEMPERATURE = 298.15  # K
ROUNDING = 1e-6  # K, so that -20 °C, which is a little below 253.15 K in floats, is still inside


def resting_volts_lithium_polymer(share: float) -> float:
    """Resting volts of a lithium-polymer cell.

    Formula: U_c = resting volts at s in a table by the share of charge left, straight lines between
    share: s, share of the charge left [1]
    Gives: U_c, resting volts of one cell [V]
    Limits: share from 0 to 1, else ValueError; rested for some minutes, near 25 °C.
    Source: common practice, no source (from memory)

    >>> round(resting_volts_lithium_polymer(0.5), 2)
    3.84
    """
    return linear(share, SHARES, LITHIUM_POLYMER_VOLTS)


def resting_volts_lithium_ion(share: float) -> float:
    """Resting volts of a lithium-ion cell with a nickel-rich cathode.

    Formula: U_c = resting volts at s in a table by the share of charge left, straight lines between
    share: s, share of the charge left [1]
    Gives: U_c, resting volts of one cell [V]
    Limits: share from 0 to 1, else ValueError; rested for some minutes, near 25 °C.
    Source: common practice, no source (from memory)

    >>> round(resting_volts_lithium_ion(0.5), 2)
    3.68
    """
    return linear(share, SHARES, LITHIUM_ION_VOLTS)


def charge_share_lithium_polymer(cell_volts: float) -> float:
    """Share of the charge left in a lithium-polymer cell by its resting volts.

    Formula: s = share at U_c in the table of resting volts, 1 above its top, 0 below its foot
    cell_volts: U_c, resting volts of one cell [V]
    Gives: s, share of the charge left [1]
    Limits: rested for some minutes, near 25 °C; flat between 3.7 V and 3.9 V, so that 0.02 V are
        5 % there.
    Source: common practice, no source (from memory)

    >>> round(charge_share_lithium_polymer(3.73), 3)
    0.2
    """
    return _share(cell_volts, LITHIUM_POLYMER_VOLTS)


def charge_share_lithium_ion(cell_volts: float) -> float:
    """Share of the charge left in a lithium-ion cell by its resting volts.

    Formula: s = share at U_c in the table of resting volts, 1 above its top, 0 below its foot
    cell_volts: U_c, resting volts of one cell [V]
    Gives: s, share of the charge left [1]
    Limits: rested for some minutes, near 25 °C.
    Source: common practice, no source (from memory)

    >>> round(charge_share_lithium_ion(3.3), 3)
    0.1
    """
    return _share(cell_volts, LITHIUM_ION_VOLTS)


def mean_volts_lithium_polymer(low_share: float, high_share: float) -> float:
    """Mean resting volts of a lithium-polymer cell between two states of charge.

    Formula: U_m = ∫ U_c ds / (s₂ - s₁)
    low_share: s₁, share of the charge at the end [1]
    high_share: s₂, share of the charge at the start [1]
    Gives: U_m, mean resting volts of one cell [V]
    Limits: 0 ≤ s₁ < s₂ ≤ 1, else ValueError.
    Source: common practice, no source (from memory), integrated

    >>> round(mean_volts_lithium_polymer(0.2, 1.0), 3)
    3.916
    """
    return _mean_volts(low_share, high_share, LITHIUM_POLYMER_VOLTS)


def mean_volts_lithium_ion(low_share: float, high_share: float) -> float:
    """Mean resting volts of a lithium-ion cell between two states of charge.

    Formula: U_m = ∫ U_c ds / (s₂ - s₁)
    low_share: s₁, share of the charge at the end [1]
    high_share: s₂, share of the charge at the start [1]
    Gives: U_m, mean resting volts of one cell [V]
    Limits: 0 ≤ s₁ < s₂ ≤ 1, else ValueError.
    Source: common practice, no source (from memory), integrated

    >>> round(mean_volts_lithium_ion(0.1, 1.0), 3)
    3.741
    """
    return _mean_volts(low_share, high_share, LITHIUM_ION_VOLTS)


def cold_capacity_share(temperature: float) -> float:
    """Share of its capacity that a high-rate cell gives in the cold.

    Formula: c = curve at T through 1.00 at 25 °C, 0.80 at 0 °C, 0.75 at -10 °C, 0.60 at -20 °C
    temperature: T, temperature of the cell itself, not of the air [K]
    Gives: c, share of the capacity at 25 °C; 1 above that [1]
    Limits: not below -20 °C, else ValueError; the cell warms as it works, so that a slow discharge
        differs.
    Source: a maker's published data sheet of one high-rate cell, at 6.9 times its capacity an hour

    >>> round(cold_capacity_share(277.15), 3)
    0.825
    """
    if temperature >= ROOM_TEMPERATURE:
        return 1.0
    if temperature < COLD_TEMPERATURES[0] - ROUNDING:
        raise ValueError("What a cell gives below -20 °C is not known here.")
    return monotone(max(temperature, COLD_TEMPERATURES[0]), COLD_TEMPERATURES, COLD_SHARES)


def cold_resistance(resistance: float, temperature: float, activation: float) -> float:
    """Resistance of a cell at another temperature than 25 °C.

    Formula: R = R_25 e^(B (1/T - 1/298.15 K))
    resistance: R_25, resistance at 25 °C [Ω]
    temperature: T, temperature of the cell itself [K]
    activation: B, activation temperature; 2000 K makes it 1.85 times as high at 0 °C [K]
    Gives: R, resistance at T [Ω]
    Limits: from -20 °C to 60 °C, else ValueError; fresh cell.
    Source: Arrhenius's law; the 2000 K are common practice, no source

    >>> round(cold_resistance(0.006, 273.15, 2000.0), 5)
    0.01109
    """
    if not COLD_TEMPERATURES[0] - ROUNDING <= temperature <= 333.15 + ROUNDING:
        raise ValueError("The resistance of a cell is scaled from -20 °C to 60 °C only.")
    return resistance * math.exp(activation * (1.0 / temperature - 1.0 / ROOM_TEMPERATURE))


def mean_current(charge_used: float, time: float) -> float:
    """Mean current of a flight from the charge that went back into the battery.

    Formula: I = Q / t
    charge_used: Q, charge used [C]
    time: t, time in the air [s]
    Gives: I, mean current [A]
    Limits: time above 0, else ValueError.
    Source: definition

    >>> round(mean_current(2016.0, 340.0), 2)
    5.93
    """
    if time <= 0.0:
        raise ValueError("A flight takes more than no time.")
    return charge_used / time


def _share(cell_volts: float, volts: tuple[float, ...]) -> float:
    return linear(min(max(cell_volts, volts[0]), volts[-1]), volts, SHARES)


def _mean_volts(low: float, high: float, volts: tuple[float, ...]) -> float:
    if not 0.0 <= low < high <= 1.0:
        raise ValueError("Mean volts need shares from 0 to 1, and a start above the end.")
    places = (low, *(s for s in SHARES if low < s < high), high)
    values = [linear(s, SHARES, volts) for s in places]
    corners = pairwise(zip(places, values, strict=True))
    area = math.fsum((p1 - p0) * (v0 + v1) / 2.0 for (p0, v0), (p1, v1) in corners)
    return area / (high - low)
