"""Small steps between the bench table, the pack and the aircraft in the air."""


def all_rotors(one: float, count: float) -> float:
    """All rotors together.

    Formula: P = n p
    one: p, power of one rotor [W]
    count: n, number of rotors [1]
    Gives: P, power of all rotors [W]
    Limits: each carries the same; nothing negative, else ValueError.
    Source: definition

    >>> all_rotors(12.5, 4.0)
    50.0
    """
    if one < 0.0 or count < 0.0:
        raise ValueError("Neither a power nor a count can be negative.")
    return one * count


def table_thrust(thrust: float, density: float, table_density: float) -> float:
    """Thrust to look up in a bench table that was made in other air.

    Formula: T_b = T ρ_b / ρ
    thrust: T, thrust wanted in the field's air [N]
    density: ρ, density of the field's air [kg/m³]
    table_density: ρ_b, density of the bench's air [kg/m³]
    Gives: T_b, thrust of the same speed of rotation in the bench's air [N]
    Limits: densities above 0, thrust not negative, else ValueError.
    Source: T = C_T ρ n² D⁴ at the same n

    >>> round(table_thrust(1.0, 1.1, 1.225), 4)
    1.1136
    """
    if thrust < 0.0 or density <= 0.0 or table_density <= 0.0:
        raise ValueError("A density is above 0 and a thrust not negative.")
    return thrust * table_density / density


def throttle_from_bench(throttle: float, table_volts: float, volts: float) -> float:
    """Throttle on the battery's volts for what a bench table reads on its own.

    Formula: s = s_b U_b / U
    throttle: s_b, throttle on the bench's volts [1]
    table_volts: U_b, volts of the bench table [V]
    volts: U, volts of the battery under load [V]
    Gives: s, share of full throttle [1]
    Limits: throttle stands for the share of the volts that reaches the motor; volts above 0 and s
        at most 1,
        else ValueError.
    Source: common practice, no source

    >>> round(throttle_from_bench(0.4, 15.2, 14.4), 4)
    0.4222
    """
    if table_volts <= 0.0 or volts <= 0.0:
        raise ValueError("Volts are above 0.")
    share = throttle * table_volts / volts
    if share > 1.0:
        raise ValueError("It does not hover: more than full throttle is wanted.")
    return share


def thrust_over_weight(thrust: float, mass: float) -> float:
    """Thrust as a multiple of the weight.

    Formula: k = T / (m g)
    thrust: T, full thrust of all motors [N]
    mass: m, mass of the aircraft [kg]
    Gives: k, thrust over weight [1]
    Limits: mass above 0, else ValueError.
    Source: definition, g = 9.80665 m/s²

    >>> round(thrust_over_weight(12.0, 0.25), 3)
    4.895
    """
    if mass <= 0.0:
        raise ValueError("A mass is above 0.")
    return thrust / (mass * 9.80665)


def sum_of_powers(motors: float, standing: float) -> float:
    """Power of motors and standing load together.

    Formula: P = P_m + P_0
    motors: P_m, power of the motors [W]
    standing: P_0, load of boards, radio and video [W]
    Gives: P, power [W]
    Limits: none.
    Source: definition

    >>> sum_of_powers(50.0, 5.5)
    55.5
    """
    return motors + standing


def styled_power(hover: float, style: float) -> float:
    """Mean power of a flight in the builder's own style.

    Formula: P = k P_h
    hover: P_h, hover power with the standing load [W]
    style: k, style factor: mean power over hover power [1]
    Gives: P, mean power [W]
    Limits: style above 0, else ValueError.
    Source: definition

    >>> styled_power(60.0, 1.5)
    90.0
    """
    if style <= 0.0:
        raise ValueError("A style factor is above 0.")
    return hover * style


def logged_style(used: float, volts: float, time: float, hover: float) -> float:
    """Average power over hover power of one logged flight.

    Formula: k = Q U / (t P_h)
    used: Q, charge used [C]
    volts: U, mean volts under load [V]
    time: t, time in the air [s]
    hover: P_h, hover power with the standing load at that flight's mass and air [W]
    Gives: k, style factor [1]
    Limits: time and hover power above 0, else ValueError.
    Source: definition

    >>> round(logged_style(2484.0, 14.6, 400.0, 62.0), 3)
    1.462
    """
    if time <= 0.0 or hover <= 0.0:
        raise ValueError("Time and hover power are above 0.")
    return used * volts / (time * hover)
