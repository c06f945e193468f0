"""Ratios and scalings of rotors: loading, tip speed, throttle, other air, other volts."""

import math


def disc_loading(thrust: float, area: float) -> float:
    """Thrust for each square metre of disc.

    Formula: DL = T / A
    thrust: T, thrust of one rotor [N]
    area: A, swept area of the disc [m²]
    Gives: DL, disc loading [N/m²]
    Limits: area above 0, else ValueError.
    Source: definition

    >>> round(disc_loading(0.61046, 0.0045604), 1)
    133.9
    """
    if area <= 0.0:
        raise ValueError("Disc loading needs an area above 0.")
    return thrust / area


def tip_speed(speed: float, diameter: float) -> float:
    """Speed of the blade tips in still air.

    Formula: u = ω D / 2
    speed: ω, speed of the shaft [rad/s]
    diameter: D, diameter of the propeller [m]
    Gives: u, speed of the tips [m/s]
    Limits: the aircraft stands still in the air.
    Source: definition

    >>> round(tip_speed(30000 * math.pi / 30, 0.127), 1)
    199.5
    """
    return speed * diameter / 2.0


def mach_number(speed: float, speed_of_sound: float) -> float:
    """A speed as a share of the speed of sound.

    Formula: Ma = u / a
    speed: u, speed of the tips [m/s]
    speed_of_sound: a, speed of sound in this air [m/s]
    Gives: Ma, Mach number [1]
    Limits: speed of sound above 0, else ValueError.
    Source: definition

    >>> round(mach_number(199.5, 340.294), 3)
    0.586
    """
    if speed_of_sound <= 0.0:
        raise ValueError("A Mach number needs a speed of sound above 0.")
    return speed / speed_of_sound


def thrust_to_weight(thrust: float, weight: float) -> float:
    """Full thrust as a multiple of the weight.

    Formula: k = T_max / W
    thrust: T_max, full thrust of all rotors together [N]
    weight: W, weight force of the aircraft [N]
    Gives: k, ratio of thrust to weight [1]
    Limits: weight above 0, else ValueError.
    Source: definition

    >>> round(thrust_to_weight(12.0, 2.44), 2)
    4.92
    """
    if weight <= 0.0:
        raise ValueError("A ratio of thrust to weight needs a weight above 0.")
    return thrust / weight


def hover_throttle(thrust: float, full_thrust: float, exponent: float) -> float:
    """Share of full throttle at which a rotor hovers, when no bench table says it.

    Formula: s = (T / T_max)^(1/e)
    thrust: T, thrust of one rotor at hover [N]
    full_thrust: T_max, thrust of one rotor at full throttle [N]
    exponent: e, how thrust grows with throttle: 2 where speed follows throttle, less in practice
        [1]
    Gives: s, share of full throttle [1]
    Limits: thrust from 0 to full thrust, both same volts and air; else ValueError.
    Source: common practice, no source

    >>> round(hover_throttle(0.61, 3.0, 2.0), 3)
    0.451
    """
    if full_thrust <= 0.0 or exponent <= 0.0:
        raise ValueError("Throttle at hover needs full thrust and exponent above 0.")
    if not 0.0 <= thrust <= full_thrust:
        raise ValueError("The rotor cannot give this thrust at full throttle.")
    return math.pow(thrust / full_thrust, 1.0 / exponent)


def scaled_speed(speed: float, thrust: float, new_thrust: float) -> float:
    """Shaft speed of the same propeller at another thrust in the same air.

    Formula: ω₂ = ω₁ √(T₂ / T₁)
    speed: ω₁, speed of the shaft at the known thrust [rad/s]
    thrust: T₁, known thrust [N]
    new_thrust: T₂, wanted thrust [N]
    Gives: ω₂, speed of the shaft at the wanted thrust [rad/s]
    Limits: thrust coefficient taken as constant; T₁ above 0, T₂ not negative, else ValueError.
    Source: T = C_T ρ n² D⁴ (propeller convention)

    >>> round(scaled_speed(1000.0, 1.0, 0.25), 1)
    500.0
    """
    if thrust <= 0.0 or new_thrust < 0.0:
        raise ValueError(
            "Scaling a speed needs a known thrust above 0 and a wanted one of 0 or more."
        )
    return speed * math.sqrt(new_thrust / thrust)


def thrust_at_density(thrust: float, density: float, known_density: float) -> float:
    """Thrust of the same propeller at the same speed in other air.

    Formula: T₂ = T₁ ρ₂ / ρ₁
    thrust: T₁, thrust in the known air [N]
    density: ρ₂, density of the other air [kg/m³]
    known_density: ρ₁, density at which T₁ was measured [kg/m³]
    Gives: T₂, thrust in the other air [N]
    Limits: same shaft speed, C_T taken as constant; ρ₁ above 0, else ValueError.
    Source: T = C_T ρ n² D⁴ (propeller convention)

    >>> round(thrust_at_density(0.556, 1.0065, 1.225), 4)
    0.4568
    """
    if known_density <= 0.0:
        raise ValueError("Scaling with density needs a known density above 0.")
    return thrust * density / known_density


def power_at_density(power: float, density: float, known_density: float) -> float:
    """Power at the shaft of the same propeller at the same speed in other air.

    Formula: P₂ = P₁ ρ₂ / ρ₁
    power: P₁, power in the known air [W]
    density: ρ₂, density of the other air [kg/m³]
    known_density: ρ₁, density at which P₁ was measured [kg/m³]
    Gives: P₂, power in the other air [W]
    Limits: same shaft speed, C_P taken as constant; ρ₁ above 0, else ValueError.
    Source: P = C_P ρ n³ D⁵ (propeller convention)

    >>> round(power_at_density(8.083, 1.0065, 1.225), 3)
    6.641
    """
    if known_density <= 0.0:
        raise ValueError("Scaling with density needs a known density above 0.")
    return power * density / known_density


def thrust_at_volts(thrust: float, volts: float, known_volts: float) -> float:
    """Thrust of a drive at the same throttle on other volts.

    Formula: T₂ = T₁ (U₂ / U₁)²
    thrust: T₁, thrust on the known volts [N]
    volts: U₂, other volts at the speed controller [V]
    known_volts: U₁, volts at which T₁ was measured [V]
    Gives: T₂, thrust on the other volts [N]
    Limits: speed taken as proportional to volts, a little too much for a loaded motor; U₁ above 0,
        else ValueError.
    Source: common practice, no source

    >>> round(thrust_at_volts(3.0, 14.0, 16.0), 3)
    2.297
    """
    if known_volts <= 0.0:
        raise ValueError("Scaling with volts needs known volts above 0.")
    return thrust * (volts / known_volts) ** 2


def throttle_at_volts(throttle: float, volts: float, known_volts: float) -> float:
    """Throttle that gives the same mean volts at the motor on another supply.

    Formula: s₂ = s₁ U₁ / U₂
    throttle: s₁, share of full throttle on the known volts [1]
    volts: U₂, other volts at the speed controller [V]
    known_volts: U₁, volts at which s₁ was measured [V]
    Gives: s₂, share of full throttle on the other volts; above 1 it cannot be had [1]
    Limits: motor volts taken as throttle times supply; U₂ above 0, else ValueError.
    Source: common practice, no source

    >>> round(throttle_at_volts(0.35, 14.0, 16.0), 3)
    0.4
    """
    if volts <= 0.0:
        raise ValueError("Throttle on other volts needs volts above 0.")
    return throttle * known_volts / volts


def hover_speed(mass: float, rotors: float, rotor_constant: float) -> float:
    """Shaft speed at hover from a rotor's thrust constant.

    Formula: ω = √(m g / (n k))
    mass: m, all-up mass [kg]
    rotors: n, number of rotors that share the load alike [1]
    rotor_constant: k, thrust of one rotor for the square of its speed [N·s²/rad²]
    Gives: ω, speed of the shaft [rad/s]
    Limits: mass not negative, the rest above 0, else ValueError.
    Source: T = k ω², as in published models of quadrotors; g = 9.80665 m/s²

    >>> round(hover_speed(0.716, 4, 8.54858e-6), 1)
    453.1
    """
    if mass < 0.0 or rotors <= 0.0 or rotor_constant <= 0.0:
        raise ValueError("Speed at hover needs a mass of 0 or more, and all else above 0.")
    return math.sqrt(mass * 9.80665 / (rotors * rotor_constant))


def speed_on_volts(speed: float, volts: float, known_volts: float, exponent: float) -> float:
    """Shaft speed of a loaded drive at the same throttle on other volts.

    Formula: ω₂ = ω₁ (U₂ / U₁)^a
    speed: ω₁, speed of the shaft on the known volts [rad/s]
    volts: U₂, other volts at the speed controller [V]
    known_volts: U₁, volts at which ω₁ was measured [V]
    exponent: a, power of the ratio of volts by which the speed goes; 1 without load [1]
    Gives: ω₂, speed of the shaft on the other volts [rad/s]
    Limits: both volts above 0, else ValueError.
    Source: 99 pairs of motor and propeller measured at two voltages

    >>> speed_on_volts(2000.0, 12.0, 16.0, 1.0)
    1500.0
    """
    if known_volts <= 0.0 or volts <= 0.0:
        raise ValueError("Speed on other volts needs known volts above 0.")
    return speed * math.pow(volts / known_volts, exponent)
