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
