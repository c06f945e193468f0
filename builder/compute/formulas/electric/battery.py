"""Flight batteries: energy, volts, current under load, endurance."""

import math


def stored_energy(nominal_volts: float, charge: float) -> float:
    """Energy of a battery by its nominal volts, as the rules of air transport count it.

    Formula: E = U_n Q
    nominal_volts: U_n, nominal volts of the battery [V]
    charge: Q, capacity of the battery [C]
    Gives: E, energy; 3600 J are one watt-hour [J]
    Limits: none.
    Source: IATA Dangerous Goods Regulations 2.3.5; 49 CFR 175.10 (read in secondary copies)

    >>> round(stored_energy(22.2, 4.5 * 3600) / 3600, 1)
    99.9
    """
    return nominal_volts * charge


def pack_volts(cell_volts: float, series: float) -> float:
    """Volts of a battery from the volts of one cell.

    Formula: U = n U_c
    cell_volts: U_c, volts of one cell [V]
    series: n, number of cells in series [1]
    Gives: U, volts of the battery [V]
    Limits: all cells alike.
    Source: definition

    >>> round(pack_volts(4.2, 4), 1)
    16.8
    """
    return cell_volts * series


def pack_resistance(cell_resistance: float, series: float, parallel: float) -> float:
    """Resistance of a battery from that of one cell.

    Formula: R = R_c n / p
    cell_resistance: R_c, resistance of one cell [Ω]
    series: n, number of cells in series [1]
    parallel: p, number of strings in parallel [1]
    Gives: R, resistance of the battery without its leads [Ω]
    Limits: all cells alike; parallel above 0, else ValueError.
    Source: Kirchhoff's laws

    >>> round(pack_resistance(0.006, 4, 1), 4)
    0.024
    """
    if parallel <= 0.0:
        raise ValueError("A battery has at least one string of cells.")
    return cell_resistance * series / parallel


def volts_under_load(resting_volts: float, current: float, resistance: float) -> float:
    """Volts of a battery while it gives a current.

    Formula: U = U_0 - R I
    resting_volts: U_0, resting volts of the battery [V]
    current: I, current from the battery [A]
    resistance: R, resistance of battery, leads and connector [Ω]
    Gives: U, volts under load [V]
    Limits: the resistance is that of the state of charge, temperature and seconds of load.
    Source: Ohm's law

    >>> round(volts_under_load(16.8, 40.0, 0.03), 2)
    15.6
    """
    return resting_volts - current * resistance


def resting_volts(loaded_volts: float, current: float, resistance: float) -> float:
    """Resting volts of a battery by what it has while it gives a current.

    Formula: U_0 = U + R I
    loaded_volts: U, volts under load [V]
    current: I, current from the battery [A]
    resistance: R, resistance of battery, leads and connector [Ω]
    Gives: U_0, resting volts of the battery [V]
    Limits: the resistance is that of the state of charge, temperature and seconds of load.
    Source: Ohm's law

    >>> round(resting_volts(14.0, 10.0, 0.03), 2)
    14.3
    """
    return loaded_volts + current * resistance


def current_for_power(power: float, resting_volts: float, resistance: float) -> float:
    """Current of a load that takes constant power, with the sag that the current itself causes.

    Formula: I = 2 P / (U_0 + √(U_0² - 4 R P))
    power: P, power that the load takes [W]
    resting_volts: U_0, resting volts of the battery [V]
    resistance: R, resistance of battery, leads and connector [Ω]
    Gives: I, current from the battery [A]
    Limits: power, resistance not negative, resting volts above 0, and P at most U_0² / (4 R);
        else ValueError.
    Source: P = (U_0 - R I) I solved for the smaller current

    >>> round(current_for_power(120.0, 15.2, 0.03), 3)
    8.022
    """
    if power < 0.0 or resistance < 0.0 or resting_volts <= 0.0:
        raise ValueError(
            "Current for a power needs volts above 0, and power and resistance of 0 or more."
        )
    inside = resting_volts * resting_volts - 4.0 * resistance * power
    if inside < 0.0:
        raise ValueError("The battery cannot deliver this power through its resistance.")
    return 2.0 * power / (resting_volts + math.sqrt(inside))


def usable_charge(charge: float, full_share: float, landing_share: float) -> float:
    """Charge between the full and the landing state of a battery.

    Formula: Q_u = Q (s_f - s_l)
    charge: Q, capacity at the battery's temperature [C]
    full_share: s_f, share of the capacity in the battery at take-off [1]
    landing_share: s_l, share of the capacity left at landing [1]
    Gives: Q_u, usable charge [C]
    Limits: shares from 0 to 1, landing not above full; else ValueError.
    Source: definition

    >>> round(usable_charge(3060.0, 1.0, 0.2), 0)
    2448.0
    """
    if not 0.0 <= landing_share <= full_share <= 1.0:
        raise ValueError(
            "Shares of a battery run from 0 to 1, and it lands with no more than it left with."
        )
    return charge * (full_share - landing_share)


def usable_energy(
    usable_charge: float, mean_volts: float, mean_current: float, resistance: float
) -> float:
    """Energy that reaches the loads while a battery gives its usable charge.

    Formula: E = Q_u (U_m - R I)
    usable_charge: Q_u, usable charge [C]
    mean_volts: U_m, mean resting volts of the battery over that charge [V]
    mean_current: I, mean current [A]
    resistance: R, resistance of battery, leads and connector [Ω]
    Gives: E, usable energy [J]
    Limits: volts under load above 0, else ValueError. The losses of a current that varies are
        higher than those of its mean.
    Source: definition with Ohm's law

    >>> round(usable_energy(2448.0, 15.2, 8.0, 0.03) / 3600, 2)
    10.17
    """
    if mean_volts <= resistance * mean_current:
        raise ValueError("At this current nothing is left of the battery's volts.")
    return usable_charge * (mean_volts - resistance * mean_current)


def endurance(energy: float, power: float) -> float:
    """Time for which an energy lasts.

    Formula: t = E / P
    energy: E, usable energy [J]
    power: P, mean power [W]
    Gives: t, time in the air [s]
    Limits: power above 0, else ValueError.
    Source: definition

    >>> round(endurance(36612.0, 120.0), 1)
    305.1
    """
    if power <= 0.0:
        raise ValueError("Endurance needs a power above 0.")
    return energy / power
