"""Whether parts fit: thread grip, clearances, stack height."""

import math


def thread_grip(length: float, passed: float, depth: float) -> float:
    """Length of thread that a screw grips in.

    Formula: g = min(l - s, t)
    length: l, length of the screw below its head [m]
    passed: s, thickness of all that the screw passes through before the thread [m]
    depth: t, depth of the thread [m]
    Gives: g, length of thread in grip; negative when the screw does not reach it [m]
    Limits: countersunk heads are measured over all. Kink where the screw just fills the thread.
    Source: definition

    >>> round(thread_grip(0.008, 0.006, 0.003) * 1000, 1)
    2.0
    """
    return min(length - passed, depth)


def grip_in_diameters(grip: float, diameter: float) -> float:
    """Grip of a screw in diameters of its thread.

    Formula: g' = g / d
    grip: g, length of thread in grip [m]
    diameter: d, nominal diameter of the thread [m]
    Gives: g', grip in diameters [1]
    Limits: diameter above 0, else ValueError.
    Source: definition; below 0.6 too little, below 0.8 scant: common practice, no source

    >>> round(grip_in_diameters(0.002, 0.002), 2)
    1.0
    """
    if diameter <= 0.0:
        raise ValueError("A thread's diameter lies above 0.")
    return grip / diameter


def clearance_below(length: float, passed: float, free: float) -> float:
    """Room between the end of a screw or shaft and what lies behind it.

    Formula: c = s + f - l
    length: l, length of the screw below its head [m]
    passed: s, thickness of all that the screw passes through before the thread [m]
    free: f, way from there to what lies behind, a winding or the bay of the battery [m]
    Gives: c, clearance; negative when the end touches [m]
    Limits: none.
    Source: definition; 0.3 mm clear of a winding: common practice, no source

    >>> round(clearance_below(0.008, 0.006, 0.003) * 1000, 1)
    1.0
    """
    return passed + free - length


def compressed_height(free: float, share: float) -> float:
    """Height of a soft mount under its screw.

    Formula: h = s h₀
    free: h₀, height as bought [m]
    share: s, share of it that is left under the screw [1]
    Gives: h, height as mounted [m]
    Limits: share above 0 and at most 1, else ValueError.
    Source: definition; about 0.85 for silicone: common practice, no source

    >>> round(compressed_height(0.003, 0.85) * 1000, 2)
    2.55
    """
    if not 0.0 < share <= 1.0:
        raise ValueError("A soft mount keeps a share above 0 and at most 1 of its height.")
    return share * free


def stack_height(*heights: float) -> float:
    """Height of boards, soft mounts and posts on one another.

    Formula: H = Σ h_i
    heights: h_i, height of each layer, soft mounts as compressed [m]
    Gives: H, height of the stack [m]
    Limits: none.
    Source: definition

    >>> round(stack_height(0.003, 0.0065, 0.003, 0.0075) * 1000, 1)
    20.0
    """
    return math.fsum(heights)
