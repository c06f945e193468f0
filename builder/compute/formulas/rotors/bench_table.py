"""Reading a motor's bench table between its rows, each number of which is a figure of its own.

A propeller's power grows with thrust to the power of 3/2, and its speed with the root of thrust.
Interpolating current^(2/3) and speed² over thrust is thus nearly a straight line, and stays close
where a table has few rows.
"""

import math

from builder.compute.formulas.rotors.interpolate import monotone


def bench_current(thrust: float, *rows: float) -> float:
    """Current of a motor at a thrust, from its bench table.

    Formula: I = y(T)^1.5, y = monotone curve through (T_k, I_k^(2/3))
    thrust: T, wanted thrust in the air and on the volts of the table [N]
    rows: T_k, thrusts in N, rising, each followed by its current I_k in A [1]
    Gives: I, current [A]
    Limits: within the table, two rows or more, currents not negative; else ValueError.
    Source: monotone interpolation (Fritsch and Butland, 1984); P ~ T^1.5 from momentum theory

    >>> round(bench_current(1.0, 0.5, 1.0, 2.0, 8.0), 3)
    2.828
    """
    currents = rows[1::2]
    if min(currents, default=0.0) < 0.0:
        raise ValueError("A bench table has no negative currents.")
    roots = tuple(math.pow(i, 2.0 / 3.0) for i in currents)
    root = monotone(thrust, rows[0::2], roots)
    return math.pow(max(root, 0.0), 1.5)


def bench_speed(thrust: float, *rows: float) -> float:
    """Speed of a motor at a thrust, from its bench table.

    Formula: ω = √y(T), y = monotone curve through (T_k, ω_k²)
    thrust: T, wanted thrust in the air of the table [N]
    rows: T_k, thrusts in N, rising, each followed by its speed ω_k in rad/s [1]
    Gives: ω, speed of the shaft [rad/s]
    Limits: within the table, two rows or more, speeds not negative; else ValueError.
    Source: monotone interpolation (Fritsch and Butland, 1984); T ~ ω² at constant coefficients

    >>> round(bench_speed(1.0, 0.5, 1000.0, 2.0, 2000.0), 1)
    1414.2
    """
    speeds = rows[1::2]
    if min(speeds, default=0.0) < 0.0:
        raise ValueError("A bench table has no negative speeds.")
    return math.sqrt(max(monotone(thrust, rows[0::2], tuple(w * w for w in speeds)), 0.0))


def bench_throttle(thrust: float, *rows: float) -> float:
    """Throttle at which a motor gives a thrust, from its bench table.

    Formula: s = monotone curve through (T_k, s_k) at T
    thrust: T, wanted thrust in the air and on the volts of the table [N]
    rows: T_k, thrusts in N, rising, each followed by its share of full throttle s_k [1]
    Gives: s, share of full throttle [1]
    Limits: within the table, two rows or more; else ValueError.
    Source: monotone interpolation (Fritsch and Butland, 1984)

    >>> round(bench_throttle(1.25, 0.5, 0.3, 2.0, 0.6), 6)
    0.45
    """
    return monotone(thrust, rows[0::2], rows[1::2])


def thrust_as_read(thrust: float, scale: float) -> float:
    """What a stand with an error of scale reads at a true thrust.

    Formula: T_r = T / k
    thrust: T, true thrust [N]
    scale: k, scale of the stand: true thrust over its reading [1]
    Gives: T_r, reading [N]
    Limits: scale above 0, else ValueError.
    Source: definition

    >>> thrust_as_read(1.0, 1.25)
    0.8
    """
    if scale <= 0.0:
        raise ValueError("A scale is above 0.")
    return thrust / scale


def true_thrust(reading: float, scale: float) -> float:
    """True thrust behind a reading of a stand with an error of scale.

    Formula: T = k T_r
    reading: T_r, reading [N]
    scale: k, scale of the stand: true thrust over its reading [1]
    Gives: T, true thrust [N]
    Limits: none.
    Source: definition

    >>> true_thrust(0.8, 1.25)
    1.0
    """
    return reading * scale


def true_current(reading: float, scale: float) -> float:
    """True current behind a reading of a meter with an error of scale.

    Formula: I = k I_r
    reading: I_r, reading [A]
    scale: k, scale of the meter: true current over its reading [1]
    Gives: I, true current [A]
    Limits: none.
    Source: definition

    >>> true_current(2.0, 1.5)
    3.0
    """
    return reading * scale


def current_at_same_power(current: float, volts: float, table_volts: float) -> float:
    """Current that takes the same power on the table's volts as a row takes on its own.

    Formula: I_b = I U_r / U_b
    current: I, current of the row [A]
    volts: U_r, volts of the row [V]
    table_volts: U_b, volts of the table [V]
    Gives: I_b, current on the table's volts [A]
    Limits: a thrust takes the same power whatever the volts; volts of the table above 0, else
        ValueError.
    Source: common practice, no source

    >>> current_at_same_power(2.0, 12.0, 16.0)
    1.5
    """
    if table_volts <= 0.0:
        raise ValueError("Volts are above 0.")
    return current * volts / table_volts
