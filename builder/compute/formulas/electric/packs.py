"""Packs in parallel, in the cold and in flight, and the style factor over several flights."""

import math


def capacity_in_the_cold(printed: float, parallel: float, share: float) -> float:
    """Capacity of a battery as it flies.

    Formula: Q = n Q_p c
    printed: Q_p, capacity as printed on one battery [C]
    parallel: n, batteries in parallel [1]
    share: c, share of the capacity at the battery's temperature [1]
    Gives: Q, capacity [C]
    Limits: nothing negative, else ValueError.
    Source: definition

    >>> round(capacity_in_the_cold(2340.0, 1.0, 0.95), 1)
    2223.0
    """
    if min(printed, parallel, share) < 0.0:
        raise ValueError("Neither a capacity nor a share can be negative.")
    return printed * parallel * share


def style_over_flights(scatter: float, *factors: float) -> float:
    """Average power over hover power of the next flight: the middle of the log, times a scatter whose middle is 1.

    Formula: k = e (Π k_i)^(1/n)
    scatter: e, scatter from flight to flight; its middle is 1, its spread that of the next flight
        [1]
    factors: k_i, style factors of the flights [1]
    Gives: k, style factor [1]
    Limits: at least one factor, all above 0, else ValueError.
    Source: geometric mean: factors multiply a power

    >>> round(style_over_flights(1.0, 1.4, 1.6), 4)
    1.4967
    """
    if not factors or min(factors) <= 0.0 or scatter <= 0.0:
        raise ValueError("A style factor needs a flight, and is above 0.")
    return scatter * math.exp(math.fsum(math.log(k) for k in factors) / len(factors))


def pack_in_the_air(start: float, air: float) -> float:
    """Mean temperature of a battery over a flight: it leaves a warm pocket into colder air.

    Formula: T = T_0 - max(0, T_0 - T_a) / 2
    start: T_0, temperature of the battery at take-off [K]
    air: T_a, temperature of the air [K]
    Gives: T, mean temperature of the battery [K]
    Limits: half-way to colder air; its own heat and warmer air are left out. Kink where both are
        alike.
    Source: common practice, no source

    >>> pack_in_the_air(293.15, 277.15)
    285.15
    """
    return start - max(0.0, start - air) / 2.0
