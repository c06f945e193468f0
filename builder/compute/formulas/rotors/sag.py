"""Full throttle under sag: current, thrust and speed over volts by an exponent."""

import math


def exponent_between(first: float, first_volts: float, second: float, second_volts: float) -> float:
    """Power of the ratio of volts by which a reading goes, from two readings.

    Formula: a = ln(y₂ / y₁) / ln(U₂ / U₁)
    first: y₁, first reading [1]
    first_volts: U₁, its volts [V]
    second: y₂, second reading, in the unit of the first [1]
    second_volts: U₂, its volts [V]
    Gives: a, exponent [1]
    Limits: all above 0, unlike volts, else ValueError.
    Source: definition

    >>> round(exponent_between(6.1, 7.4, 11.0, 11.1), 3)
    1.454
    """
    if min(first, second, first_volts, second_volts) <= 0.0 or first_volts == second_volts:
        raise ValueError("An exponent needs readings above 0 at unlike volts.")
    return math.log(second / first) / math.log(second_volts / first_volts)


def punch_current(
    table_current: float,
    table_volts: float,
    resting: float,
    resistance: float,
    count: float,
    standing: float,
    exponent: float,
) -> float:
    """Current of all motors at full throttle, solved together with the sag of the battery.

    Formula: I = n I_b (U / U_b)^a + I_0 with U = U_0 - R I
    table_current: I_b, current of one motor at full throttle on the bench [A]
    table_volts: U_b, volts of the bench table [V]
    resting: U_0, resting volts of the pack [V]
    resistance: R, resistance of pack, leads and connector [Ω]
    count: n, number of motors [1]
    standing: I_0, standing current [A]
    exponent: a, power of the ratio of volts by which the current goes [1]
    Gives: I, current from the pack [A]
    Limits: volts above 0, nothing negative, and more than nothing left by the standing current,
        else ValueError.
    Source: 99 pairs measured at two voltages; solved by Newton's method

    >>> round(punch_current(8.0, 15.2, 16.8, 0.03, 4.0, 0.5, 2.0), 2)
    34.87
    """
    least = min(table_current, resistance, count, standing, exponent)
    if table_volts <= 0.0 or resting <= 0.0 or least < 0.0:
        raise ValueError("Volts are above 0 and nothing else is negative.")
    free = resting - resistance * standing
    if free <= 0.0:
        raise ValueError("The pack cannot even carry the standing load.")
    strength = count * table_current
    volts = free
    for _ in range(60):
        drawn = strength * math.pow(volts / table_volts, exponent)
        slope = 1.0 + resistance * exponent * drawn / volts
        step = (volts + resistance * drawn - free) / slope
        volts = max(volts - step, volts / 4.0)
        if abs(step) <= 1e-15 * free:
            break
    return strength * math.pow(volts / table_volts, exponent) + standing


def bench_full_thrust(
    top: float,
    table_volts: float,
    volts: float,
    density: float,
    table_density: float,
    count: float,
    exponent: float,
) -> float:
    """Full thrust of all motors on the battery's volts and in the field's air.

    Formula: T = n T_b (U / U_b)^a ρ / ρ_b
    top: T_b, largest thrust of the bench table [N]
    table_volts: U_b, volts of the bench table [V]
    volts: U, volts of the pack [V]
    density: ρ, density of the field's air [kg/m³]
    table_density: ρ_b, density of the bench's air [kg/m³]
    count: n, number of motors [1]
    exponent: a, power of the ratio of volts by which the thrust goes [1]
    Gives: T, thrust of all motors [N]
    Limits: volts, densities above 0, else ValueError.
    Source: T = C_T ρ n² D⁴ for the air; 99 pairs measured at two voltages for the volts

    >>> round(bench_full_thrust(3.0, 15.2, 15.2, 1.225, 1.225, 4.0, 1.69), 2)
    12.0
    """
    if min(table_volts, volts, density, table_density) <= 0.0:
        raise ValueError("Volts and densities are above 0.")
    return count * top * math.pow(volts / table_volts, exponent) * density / table_density
