"""Momentum theory of the hovering rotor, and what its published coefficients give."""

import math

STANDARD_GRAVITY = 9.80665  # m/s², by definition (3rd CGPM, 1901)


def disc_area(diameter: float) -> float:
    """Swept area of one rotor.

    Formula: A = π D² / 4
    diameter: D, diameter of the propeller [m]
    Gives: A, swept area of the disc [m²]
    Limits: diameter not negative, else ValueError.
    Source: definition

    >>> round(disc_area(0.0762), 7)
    0.0045604
    """
    if diameter < 0.0:
        raise ValueError("A propeller's diameter cannot be negative.")
    return math.pi * diameter * diameter / 4.0


def thrust_for_mass(mass: float, rotors: float) -> float:
    """Thrust of each rotor that holds a mass in the air.

    Formula: T = m g / n
    mass: m, all-up mass [kg]
    rotors: n, number of rotors that share the load alike [1]
    Gives: T, thrust of one rotor [N]
    Limits: steady hover, balanced; rotors above 0, else ValueError.
    Source: definition, g = 9.80665 m/s²

    >>> round(thrust_for_mass(0.249, 4), 5)
    0.61046
    """
    if rotors <= 0.0:
        raise ValueError("A mass in the air needs at least one rotor.")
    return mass * STANDARD_GRAVITY / rotors


def induced_velocity(thrust: float, density: float, area: float) -> float:
    """Induced velocity at hover of an ideal rotor.

    Formula: v = √(T / (2 ρ A))
    thrust: T, thrust of one rotor [N]
    density: ρ, density of the air [kg/m³]
    area: A, swept area of the disc [m²]
    Gives: v, induced velocity [m/s]
    Limits: hover out of ground effect, uniform inflow; thrust not negative, density and area
        above 0, else ValueError.
    Source: Leishman, Principles of Helicopter Aerodynamics, ch. 2.

    >>> round(induced_velocity(2.0, 1.225, 0.02), 3)
    6.389
    """
    if thrust < 0.0 or density <= 0.0 or area <= 0.0:
        raise ValueError(
            "Induced velocity needs thrust of 0 or more, and density and area above 0."
        )
    return math.sqrt(thrust / (2.0 * density * area))


def ideal_hover_power(thrust: float, density: float, area: float) -> float:
    """Power that an ideal rotor needs to hover.

    Formula: P_i = T √(T / (2 ρ A))
    thrust: T, thrust of one rotor [N]
    density: ρ, density of the air [kg/m³]
    area: A, swept area of the disc [m²]
    Gives: P_i, ideal power of one rotor [W]
    Limits: hover out of ground effect, uniform inflow; thrust not negative, density and area
        above 0, else ValueError.
    Source: Leishman, Principles of Helicopter Aerodynamics, ch. 2.

    >>> round(4 * ideal_hover_power(0.61046, 1.225, 0.0045604), 2)
    18.05
    """
    return thrust * induced_velocity(thrust, density, area)


def shaft_power(ideal_power: float, figure_of_merit: float) -> float:
    """Power at the shaft of a real rotor.

    Formula: P_s = P_i / M
    ideal_power: P_i, ideal power [W]
    figure_of_merit: M, figure of merit of the rotor [1]
    Gives: P_s, power at the shaft [W]
    Limits: M above 0 and at most 1, else ValueError.
    Source: Leishman, Principles of Helicopter Aerodynamics, ch. 2.

    >>> round(shaft_power(18.05, 0.5), 2)
    36.1
    """
    if not 0.0 < figure_of_merit <= 1.0:
        raise ValueError("A figure of merit lies above 0 and is at most 1.")
    return ideal_power / figure_of_merit


def electrical_power(shaft_power: float, efficiency: float) -> float:
    """Electrical power that a drive takes for a power at its shaft.

    Formula: P_e = P_s / η
    shaft_power: P_s, power at the shaft [W]
    efficiency: η, efficiency of motor and speed controller together [1]
    Gives: P_e, electrical power [W]
    Limits: η above 0 and at most 1, else ValueError.
    Source: definition

    >>> round(electrical_power(36.1, 0.75), 2)
    48.13
    """
    if not 0.0 < efficiency <= 1.0:
        raise ValueError("An efficiency lies above 0 and is at most 1.")
    return shaft_power / efficiency


def figure_of_merit(ideal_power: float, shaft_power: float) -> float:
    """Figure of merit of a rotor from its ideal and its real power.

    Formula: M = P_i / P_s
    ideal_power: P_i, ideal power [W]
    shaft_power: P_s, power at the shaft [W]
    Gives: M, figure of merit [1]
    Limits: power at the shaft above 0, else ValueError.
    Source: Leishman, Principles of Helicopter Aerodynamics, ch. 2.

    >>> round(figure_of_merit(2642.2, 3522.9), 3)
    0.75
    """
    if shaft_power <= 0.0:
        raise ValueError("A figure of merit needs power at the shaft above 0.")
    return ideal_power / shaft_power


def figure_of_merit_from_coefficients(thrust_coefficient: float, power_coefficient: float) -> float:
    """Figure of merit from a propeller's static coefficients.

    Formula: M = √(2/π) C_T^1.5 / C_P
    thrust_coefficient: C_T, thrust coefficient T / (ρ n² D⁴) [1]
    power_coefficient: C_P, power coefficient P / (ρ n³ D⁵) [1]
    Gives: M, figure of merit [1]
    Limits: static; C_T not negative, C_P above 0, else ValueError.
    Source: P_i / P with T = C_T ρ n² D⁴ and P = C_P ρ n³ D⁵ (propeller convention, n in turns
        per second).

    >>> round(figure_of_merit_from_coefficients(0.129241, 0.106961), 4)
    0.3466
    """
    if thrust_coefficient < 0.0 or power_coefficient <= 0.0:
        raise ValueError(
            "A figure of merit needs a thrust coefficient of 0 or more, and power above 0."
        )
    return math.sqrt(2.0 / math.pi) * math.pow(thrust_coefficient, 1.5) / power_coefficient


def thrust_from_coefficient(
    thrust_coefficient: float, density: float, speed: float, diameter: float
) -> float:
    """Static thrust of a propeller from its thrust coefficient.

    Formula: T = C_T ρ (ω / 2π)² D⁴
    thrust_coefficient: C_T, thrust coefficient [1]
    density: ρ, density of the air [kg/m³]
    speed: ω, speed of the shaft [rad/s]
    diameter: D, diameter of the propeller [m]
    Gives: T, thrust [N]
    Limits: static, at the Reynolds number at which C_T was measured.
    Source: propeller convention, as on the UIUC Propeller Data Site (Brandt, Deters, Ananda,
        Dantsker, Selig).

    >>> round(thrust_from_coefficient(0.129241, 1.225, 9880 * math.pi / 30, 0.10668), 4)
    0.556
    """
    turns = speed / (2.0 * math.pi)
    return thrust_coefficient * density * turns**2 * diameter**4


def power_from_coefficient(
    power_coefficient: float, density: float, speed: float, diameter: float
) -> float:
    """Power at the shaft of a propeller from its power coefficient.

    Formula: P_s = C_P ρ (ω / 2π)³ D⁵
    power_coefficient: C_P, power coefficient [1]
    density: ρ, density of the air [kg/m³]
    speed: ω, speed of the shaft [rad/s]
    diameter: D, diameter of the propeller [m]
    Gives: P_s, power at the shaft [W]
    Limits: static, at the Reynolds number at which C_P was measured.
    Source: propeller convention, as on the UIUC Propeller Data Site (Brandt, Deters, Ananda,
        Dantsker, Selig).

    >>> round(power_from_coefficient(0.106961, 1.225, 9880 * math.pi / 30, 0.10668), 3)
    8.083
    """
    turns = speed / (2.0 * math.pi)
    return power_coefficient * density * turns**3 * diameter**5


def small_propeller_merit(diameter: float) -> float:
    """Figure of merit to expect of a small propeller when nobody has measured it.

    Formula: M = 0.42 (D / 0.1016 m)^0.4
    diameter: D, diameter of the propeller [m]
    Gives: M, middle figure of merit; the logarithm spreads by about 0.21 [1]
    Limits: 0.03 m to 0.24 m, else ValueError; below 0.06 m no test stands behind it. Low speeds,
        which the tests hold too, lie below.
    Source: fitted here to 165 rows of static tests from 2.5 to 5 in, UIUC Propeller Data Site
        (Brandt, Deters, Ananda, Dantsker, Selig) and AIAA 2014-2151; ±0.27 holds 80 % of them.

    >>> round(small_propeller_merit(0.127), 3)
    0.459
    """
    if not 0.03 <= diameter <= 0.24:
        raise ValueError("A figure of merit is guessed for propellers from 0.03 m to 0.24 m only.")
    return 0.42 * math.pow(diameter / 0.1016, 0.4)
