"""How long a cable has to be that leaves one edge, turns round and comes back to another."""

from math import acos, pi


def turn_round(apart: float, bend: float) -> float:
    """The shortest cable between two sockets beside each other that look the same way (m), which bends
    no tighter than a radius `bend` (m).

    Two quarters of a circle and a straight piece where there is room for them. Else it first swings
    out on both sides: three arcs of one radius (L. E. Dubins 1957, American Journal of Mathematics
    79, 497, from memory).

    >>> round(1000 * turn_round(0.010, 0.004), 1), round(1000 * turn_round(0.010, 0.008), 1)
    (14.6, 45.1)
    """
    if apart >= 2 * bend:
        return pi * bend + apart - 2 * bend
    swing = acos((apart / 2 + bend) / (2 * bend))
    return bend * (pi + 4 * swing)
