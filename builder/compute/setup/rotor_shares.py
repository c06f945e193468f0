"""Any layout of rotors: whether it can be steered with the turns that it has, and what each rotor
carries in a hover in which it does not turn round.

Each rotor lifts at its place and twists the aircraft against its own turn, alike for all. A hover
keeps the sum of lifts, and no moment about the three axes. Among all lifts that do, the smallest
sum of squares is taken (normal equations of least squares).
"""

from collections.abc import Mapping, Sequence
from math import dist, fsum

from builder.compute.geometry.clearances import SpacePoint, on_one_axis
from builder.compute.loops.nodal import solved
from builder.load.assumed import assumed

_STEERED = assumed("setup/yaw-apart")
_THIN = assumed("setup/one-line")


def sites(places: Mapping[str, SpacePoint]) -> int:
    """How many places the rotors have, seen from above."""
    upper = {high for _, high in on_one_axis(places)}
    return len(places) - len(upper)


def in_one_line(places: Mapping[str, SpacePoint]) -> bool:
    """Whether all places are in one line, seen from above: nothing then tilts about it."""
    many = len(places)
    middle = [fsum(p[i] for p in places.values()) / many for i in range(2)]
    x = [p[0] - middle[0] for p in places.values()]
    y = [p[1] - middle[1] for p in places.values()]
    xx, yy = fsum(a * a for a in x), fsum(b * b for b in y)
    xy = fsum(a * b for a, b in zip(x, y, strict=True))
    return bool(xx * yy - xy * xy <= _THIN * (xx + yy) ** 2)


def _apart_from_tilt(places: Sequence[SpacePoint], turns: Sequence[float]) -> list[float]:
    """What is left of the turns once the best plane over the places is taken away: what turns the
    aircraft round without tilting it.
    """
    rows = [(1.0, x, y) for x, y, _ in places]
    squares = [[fsum(r[i] * r[j] for r in rows) for j in range(3)] for i in range(3)]
    right = [fsum(r[i] * t for r, t in zip(rows, turns, strict=True)) for i in range(3)]
    plane = solved(squares, [right])[0]
    flat = [fsum(p * v for p, v in zip(plane, r, strict=True)) for r in rows]
    return [t - f for t, f in zip(turns, flat, strict=True)]


def rotor_shares(
    places: Mapping[str, SpacePoint], clockwise: Mapping[str, bool]
) -> dict[str, float] | None:
    """Lift of each rotor over an equal share, in a hover about the middle of the rotors; None where
    speed alone cannot turn the aircraft round without tilting it.

    Three places or more that are not in one line (`in_one_line`).
    """
    names = list(places)
    middle = [fsum(p[i] for p in places.values()) / len(names) for i in range(2)]
    reach = max(dist(p[:2], middle) for p in places.values())
    seen = [((x - middle[0]) / reach, (y - middle[1]) / reach, z) for x, y, z in places.values()]
    turns = [1.0 if clockwise[n] else -1.0 for n in names]
    left = _apart_from_tilt(seen, turns)
    strength = fsum(e * e for e in left)
    if strength < _STEERED * len(names):
        return None
    wanted = fsum(turns) / strength
    return {n: 1.0 - wanted * e for n, e in zip(names, left, strict=True)}
