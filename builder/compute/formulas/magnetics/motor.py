"""Electric motors: speed and torque constants, speeds, currents on other volts."""


def back_volts(speed: float, speed_constant: float) -> float:
    """Volts that a turning motor makes by itself.

    Formula: U_i = ω / K_v
    speed: ω, speed of the shaft [rad/s]
    speed_constant: K_v, speed for each volt [rad/s/V]
    Gives: U_i, back volts [V]
    Limits: K_v above 0, else ValueError.
    Source: definition

    >>> import math
    >>> round(back_volts(3000.0, 3800 * math.pi / 30), 2)
    7.54
    """
    if speed_constant <= 0.0:
        raise ValueError("A motor's speed constant lies above 0.")
    return speed / speed_constant


def torque_constant(speed_constant: float) -> float:
    """Torque of a motor for each ampere.

    Formula: K_t = 1 / K_v
    speed_constant: K_v, speed for each volt [rad/s/V]
    Gives: K_t, torque for each ampere [N·m/A]
    Limits: ideal motor in direct-current terms; K_v above 0, else ValueError.
    Source: power balance U_i I = τ ω

    >>> import math
    >>> round(torque_constant(3800 * math.pi / 30) * 1000, 3)
    2.513
    """
    if speed_constant <= 0.0:
        raise ValueError("A motor's speed constant lies above 0.")
    return 1.0 / speed_constant


def unloaded_speed(
    speed_constant: float, volts: float, no_load_current: float, resistance: float
) -> float:
    """Speed of a motor that turns nothing.

    Formula: ω₀ = K_v (U - R I₀)
    speed_constant: K_v, speed for each volt [rad/s/V]
    volts: U, volts at the motor [V]
    no_load_current: I₀, current of the motor that turns nothing [A]
    resistance: R, resistance of the winding between two leads [Ω]
    Gives: ω₀, speed of the shaft [rad/s]
    Limits: the losses take no more than the volts, else ValueError.
    Source: direct-current model of a motor, U = ω / K_v + R I

    >>> import math
    >>> round(unloaded_speed(3800 * math.pi / 30, 10.0, 0.6, 0.095) * 30 / math.pi)
    37783
    """
    return loaded_speed(speed_constant, volts, no_load_current, resistance)


def loaded_speed(speed_constant: float, volts: float, current: float, resistance: float) -> float:
    """Speed of a motor that draws a current.

    Formula: ω = K_v (U - R I)
    speed_constant: K_v, speed for each volt [rad/s/V]
    volts: U, volts at the motor, throttle times supply [V]
    current: I, current of the motor [A]
    resistance: R, resistance of the winding between two leads [Ω]
    Gives: ω, speed of the shaft [rad/s]
    Limits: R I no more than U, else ValueError.
    Source: direct-current model of a motor, U = ω / K_v + R I

    >>> import math
    >>> round(loaded_speed(3800 * math.pi / 30, 15.0, 14.0, 0.095) * 30 / math.pi)
    51946
    """
    drop = resistance * current
    if drop > volts:
        raise ValueError("The winding would take more than all of the volts at this current.")
    return speed_constant * (volts - drop)


def motor_torque(current: float, no_load_current: float, speed_constant: float) -> float:
    """Torque at the shaft of a motor that draws a current.

    Formula: τ = (I - I₀) / K_v
    current: I, current of the motor [A]
    no_load_current: I₀, current of the motor that turns nothing [A]
    speed_constant: K_v, speed for each volt [rad/s/V]
    Gives: τ, torque [N·m]
    Limits: I not below I₀, K_v above 0, else ValueError.
    Source: direct-current model of a motor

    >>> import math
    >>> round(motor_torque(14.0, 0.6, 3800 * math.pi / 30) * 1000, 2)
    33.67
    """
    if current < no_load_current:
        raise ValueError("A motor that drives draws no less than it does unloaded.")
    return (current - no_load_current) * torque_constant(speed_constant)


def motor_efficiency(
    volts: float, current: float, no_load_current: float, resistance: float
) -> float:
    """Share of a motor's electrical power that reaches its shaft.

    Formula: η = (1 - R I / U) (1 - I₀ / I)
    volts: U, volts at the motor [V]
    current: I, current of the motor [A]
    no_load_current: I₀, current of the motor that turns nothing [A]
    resistance: R, resistance of the winding between two leads [Ω]
    Gives: η, efficiency without the speed controller [1]
    Limits: I above 0 and not below I₀, R I no more than U, U above 0; else ValueError.
    Source: direct-current model of a motor

    >>> round(motor_efficiency(15.0, 14.0, 0.6, 0.095), 3)
    0.872
    """
    if volts <= 0.0 or current <= 0.0 or current < no_load_current or resistance * current > volts:
        raise ValueError("At this current the motor drives nothing.")
    return (1.0 - resistance * current / volts) * (1.0 - no_load_current / current)


def current_at_volts(current: float, volts: float, known_volts: float) -> float:
    """Current of a motor with its propeller at full throttle on other volts.

    Formula: I₂ = I₁ (U₂ / U₁)²
    current: I₁, current on the known volts [A]
    volts: U₂, other volts [V]
    known_volts: U₁, volts at which I₁ was measured [V]
    Gives: I₂, current on the other volts [A]
    Limits: same propeller and air, speed taken as proportional to volts; U₁ above 0, else
        ValueError.
    Source: common practice, no source

    >>> round(current_at_volts(16.0, 14.0, 16.0), 2)
    12.25
    """
    if known_volts <= 0.0:
        raise ValueError("Scaling with volts needs known volts above 0.")
    return current * (volts / known_volts) ** 2
