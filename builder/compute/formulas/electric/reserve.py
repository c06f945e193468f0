"""Landing on the safe side: timer, alarms at the reserve, and what age leaves of a battery."""

import math

from builder.compute.formulas.constants import UPPER_TENTH


def timer_of(mean: float, spread: float) -> float:
    """Time at which a timer rings before the reserve is reached in nine flights of ten.

    Formula: t = T e^(-1.2816 s / T)
    mean: T, time down to the reserve [s]
    spread: s, its spread [s]
    Gives: t, lower end of the band that holds 80 % [s]
    Limits: time above 0, spread not negative, else ValueError; logarithms of times are normal.
    Source: quantile of the lognormal distribution, definition

    >>> round(timer_of(360.0, 50.0), 0)
    301.0
    """
    if mean <= 0.0 or spread < 0.0:
        raise ValueError("A timer needs a time above 0.")
    return mean * math.exp(-UPPER_TENTH * spread / mean)


def left_after(reserve: float, timer: float, mean: float) -> float:
    """Share of the charge that is left when the timer rings, in the mean.

    Formula: s = 1 - (1 - r) t / T
    reserve: r, share of the charge kept as a reserve [1]
    timer: t, time of the timer [s]
    mean: T, mean time down to the reserve [s]
    Gives: s, share of the charge left [1]
    Limits: mean above 0, else ValueError; charge is used evenly.
    Source: definition

    >>> round(left_after(0.2, 300.0, 360.0), 3)
    0.333
    """
    if mean <= 0.0:
        raise ValueError("A flight takes more than no time.")
    return 1.0 - (1.0 - reserve) * timer / mean


def alarm_volts(cell: float, series: float, current: float, resistance: float) -> float:
    """Volts of a battery under load when it is down to its reserve.

    Formula: U = n U_c - R I
    cell: U_c, rested volts of one cell at the reserve [V]
    series: n, cells in series [1]
    current: I, current for which the alarm is meant [A]
    resistance: R, resistance of the battery as it flies [Ω]
    Gives: U, volts that a display shows [V]
    Limits: more than nothing is left, else ValueError.
    Source: Ohm's law

    >>> round(alarm_volts(3.73, 4.0, 6.0, 0.04), 2)
    14.68
    """
    volts = series * cell - resistance * current
    if volts <= 0.0:
        raise ValueError("The battery cannot give that current.")
    return volts


def charge_at_alarm(capacity: float, spread: float, reserve: float) -> float:
    """Charge used at which an alarm sounds, on the safe side of what the battery may hold.

    Formula: Q = max(0, Q_c - 1.2816 s) (1 - r)
    capacity: Q_c, capacity of the battery as it flies [C]
    spread: s, its spread [C]
    reserve: r, share of the charge kept as a reserve [1]
    Gives: Q, charge used [C]
    Limits: capacity above 0, spread not negative, reserve from 0 to 1, else ValueError.
    Source: quantile of the normal distribution, definition

    >>> round(charge_at_alarm(3060.0, 150.0, 0.2), 0)
    2294.0
    """
    if capacity <= 0.0 or spread < 0.0 or not 0.0 <= reserve <= 1.0:
        raise ValueError("An alarm on charge needs a capacity and a share between 0 and 1.")
    return max(0.0, capacity - UPPER_TENTH * spread) * (1.0 - reserve)


def charge_lost_by_age(cycles: float, years: float) -> float:
    """Share of its charge that a battery has lost by use and by lying.

    Formula: f = min(0.5, 0.0008 n + 0.02 a)
    cycles: n, how often it was charged [1]
    years: a, years since it was bought [1]
    Gives: f, share of the printed charge [1]
    Limits: nothing negative, else ValueError; half as much or half as much again is common.
    Source: from memory: some 15 to 25 % lost after 200 charges and two years

    >>> round(charge_lost_by_age(120.0, 1.7), 3)
    0.13
    """
    if cycles < 0.0 or years < 0.0:
        raise ValueError("Neither charges nor years can be negative.")
    return min(0.5, 0.0008 * cycles + 0.02 * years)


def resistance_grown_by_age(cycles: float, years: float) -> float:
    """How many times its resistance when new a battery has by use and by lying.

    Formula: k = 1 + 0.003 n + 0.08 a
    cycles: n, how often it was charged [1]
    years: a, years since it was bought [1]
    Gives: k, resistance over that of the new one [1]
    Limits: nothing negative, else ValueError; half as much growth or half as much again is common.
    Source: from memory: doubled after some 300 charges and two years

    >>> round(resistance_grown_by_age(120.0, 1.7), 3)
    1.496
    """
    if cycles < 0.0 or years < 0.0:
        raise ValueError("Neither charges nor years can be negative.")
    return 1.0 + 0.003 * cycles + 0.08 * years


def aged_capacity(printed: float, kept: float) -> float:
    """Capacity of a battery of some age.

    Formula: Q = Q_p k
    printed: Q_p, capacity as printed [C]
    kept: k, share of it that is left by age [1]
    Gives: Q, capacity [C]
    Limits: nothing negative, else ValueError.
    Source: definition

    >>> aged_capacity(3060.0, 0.9)
    2754.0
    """
    if printed < 0.0 or kept < 0.0:
        raise ValueError("Neither a capacity nor a share can be negative.")
    return printed * kept


def kept_by_age_and_log(
    by_age: float, age_spread: float, by_log: float, log_spread: float
) -> float:
    """Share of its printed charge that a battery holds, by its age and by flights of the log.

    Formula: k = (k_a / s_a² + k_l / s_l²) / (1 / s_a² + 1 / s_l²)
    by_age: k_a, share by charges and years [1]
    age_spread: s_a, its spread [1]
    by_log: k_l, share by charge used and volts at landing [1]
    log_spread: s_l, its spread [1]
    Gives: k, share of the printed charge [1]
    Limits: spreads above 0, else ValueError.
    Source: inverse-variance weighting, definition

    >>> round(kept_by_age_and_log(0.87, 0.06, 0.91, 0.06), 3)
    0.89
    """
    if age_spread <= 0.0 or log_spread <= 0.0:
        raise ValueError("A weighted mean needs spreads above 0.")
    one, other = 1.0 / age_spread**2, 1.0 / log_spread**2
    return (by_age * one + by_log * other) / (one + other)


def resistance_under_full_throttle(read: float, factor: float) -> float:
    """Resistance of a battery under full throttle, from what a charger reads.

    Formula: R = k R_r
    read: R_r, resistance as read, at the temperature of the flight [Ω]
    factor: k, how much higher it is over some seconds of heavy load [1]
    Gives: R, resistance [Ω]
    Limits: nothing negative, else ValueError.
    Source: definition; 1.3 with a spread of 0.2 is from memory

    >>> round(resistance_under_full_throttle(0.03, 1.3), 3)
    0.039
    """
    if read < 0.0 or factor < 0.0:
        raise ValueError("A resistance is not negative.")
    return read * factor
