"""What a log of flights says: charge used, by the charger or by the volts at landing, and what was
left.
"""

from math import fsum


def rested_volts(loaded: float, recovery: float) -> float:
    """Volts of a cell some minutes after landing from those that were seen while it still flew.

    Formula: U_c = U_l + ΔU
    loaded: U_l, volts of one cell under load at landing [V]
    recovery: ΔU, what a nearly empty cell recovers [V]
    Gives: U_c, resting volts of one cell [V]
    Limits: none.
    Source: definition; 0.15 V give or take 0.08 V: common practice, no source

    >>> round(rested_volts(3.5, 0.15), 2)
    3.65
    """
    return loaded + recovery


def cell_of_pack(pack_volts: float, series: float) -> float:
    """Mean volts of one cell of a battery.

    Formula: U_l = U / n
    pack_volts: U, volts of the battery [V]
    series: n, cells in series [1]
    Gives: U_l, volts of one cell [V]
    Limits: one cell or more, else ValueError.
    Source: definition

    >>> round(cell_of_pack(14.1, 4.0), 3)
    3.525
    """
    if series < 1.0:
        raise ValueError("A battery has one cell or more.")
    return pack_volts / series


def used_by_share(capacity: float, left: float, error: float) -> float:
    """Charge that a flight used, by the share that its landing volts say is left.

    Formula: Q = Q_c (1 - s + e)
    capacity: Q_c, capacity of the battery as it flew [C]
    left: s, share of the charge left by the resting volts [1]
    error: e, error of the rule from volts to charge; its middle is 0 [1]
    Gives: Q, charge used [C]
    Limits: more than nothing used, else ValueError.
    Source: definition

    >>> round(used_by_share(2340.0, 0.2, 0.0), 1)
    1872.0
    """
    used = capacity * (1.0 - left + error)
    if used <= 0.0:
        raise ValueError("By its volts at landing the battery was still full.")
    return used


def share_left(used: float, capacity: float) -> float:
    """Share of the charge left after a flight.

    Formula: s = max(0, 1 - Q / Q_c)
    used: Q, charge used [C]
    capacity: Q_c, capacity of the battery as it flew [C]
    Gives: s, share left; 0 where more was used than it is reckoned to hold [1]
    Limits: capacity above 0, else ValueError.
    Source: definition

    >>> round(share_left(1872.0, 2340.0), 3)
    0.2
    """
    if capacity <= 0.0:
        raise ValueError("A capacity is above 0.")
    return max(0.0, 1.0 - used / capacity)


def usual_share_left(scatter: float, *shares: float) -> float:
    """Share of the charge with which a pilot lands, by the log.

    Formula: s = e + Σ s_i / n
    scatter: e, scatter from flight to flight; its middle is 0 [1]
    shares: s_i, share left after each flight [1]
    Gives: s, share left [1]
    Limits: one flight or more, else ValueError.
    Source: mean, definition

    >>> round(usual_share_left(0.0, 0.2, 0.16), 3)
    0.18
    """
    if not shares:
        raise ValueError("A mean needs a flight.")
    return scatter + fsum(shares) / len(shares)


def charge_in_the_air(used: float, standing: float, grounded: float) -> float:
    """Charge that a flight took in the air: what was used less what ran while it stood on the
        ground.

    Formula: Q = Q_u - I_0 t_g
    used: Q_u, charge used from plugging in to unplugging [C]
    standing: I_0, standing current of boards, receiver and video [A]
    grounded: t_g, time on the ground with the battery in [s]
    Gives: Q, charge used in the air [C]
    Limits: more was used than stood on the ground, else ValueError; idling motors are left out.
    Source: definition

    >>> charge_in_the_air(2000.0, 0.5, 60.0)
    1970.0
    """
    flown = used - standing * grounded
    if flown <= 0.0:
        raise ValueError("More would have gone on the ground than was used.")
    return flown
