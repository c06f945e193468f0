"""Upright bodies in space: boxes turned about the vertical, and cylinders. In m and rad."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import cos, dist, hypot, sin

from builder.compute.geometry.clearances import SpacePoint

FloorSpot = tuple[float, float]


@dataclass(frozen=True)
class Solid:
    """A box or an upright cylinder around its middle.

    `half` are half of its lengths forward, to the left and up before it is turned; the first two of
    a cylinder are its radius. `yaw` is clockwise, seen from above.
    """

    middle: SpacePoint
    half: SpacePoint
    yaw: float = 0.0
    is_round: bool = False

    @property
    def axes(self) -> tuple[FloorSpot, FloorSpot]:
        """The ways that its front and its left side look, seen from above; left is +y."""
        c, s = cos(self.yaw), sin(self.yaw)
        return (c, -s), (s, c)

    @property
    def corners(self) -> tuple[FloorSpot, ...]:
        """Corners of a box seen from above, in order around it."""
        (front_x, front_y), (left_x, left_y) = self.axes
        middle_x, middle_y, _ = self.middle
        long, wide, _ = self.half
        out = []
        for a, b in ((long, wide), (long, -wide), (-long, -wide), (-long, wide)):
            x = middle_x + a * front_x + b * left_x
            y = middle_y + a * front_y + b * left_y
            out.append((x, y))
        return tuple(out)


def _along(spot: FloorSpot, way: FloorSpot) -> float:
    """How far a spot is along a way of length 1."""
    return spot[0] * way[0] + spot[1] * way[1]


def _beside(one: Solid, other: Solid, way: FloorSpot) -> float:
    """Room between two boxes along one way; negative where their shadows overlap."""
    x, y, _ = one.middle
    apart = (other.middle[0] - x, other.middle[1] - y)
    reach = 0.0
    for box in (one, other):
        ahead, left = box.axes
        long, wide, _ = box.half
        reach += long * abs(_along(ahead, way))
        reach += wide * abs(_along(left, way))
    return abs(_along(apart, way)) - reach


def _local(spot: FloorSpot, box: Solid) -> FloorSpot:
    """A spot seen from the middle of a box, along its own axes."""
    x, y, _ = box.middle
    from_middle = (spot[0] - x, spot[1] - y)
    ahead, left = box.axes
    return _along(from_middle, ahead), _along(from_middle, left)


def _from_box(spot: FloorSpot, box: Solid) -> float:
    """How far a spot is from a box seen from above; negative inside it."""
    ahead, aside = _local(spot, box)
    long, wide, _ = box.half
    over = abs(ahead) - long
    beyond = abs(aside) - wide
    nearest = max(over, beyond)
    if nearest <= 0.0:
        return nearest
    return hypot(max(0.0, over), max(0.0, beyond))


def _corner_ways(one: Solid, other: Solid) -> Iterator[float]:
    """From the corners of each of two boxes to the other: they stand apart, so one is nearest."""
    for box, corners in ((one, other.corners), (other, one.corners)):
        for corner in corners:
            yield _from_box(corner, box)


def seen_from_above(one: Solid, other: Solid) -> float:
    """Room between two bodies seen from above; negative: the least way that clears one of the
    other.
    """
    if one.is_round and other.is_round:
        return dist(one.middle[:2], other.middle[:2]) - one.half[0] - other.half[0]
    if one.is_round or other.is_round:
        disc, box = (one, other) if one.is_round else (other, one)
        return _from_box(disc.middle[:2], box) - disc.half[0]
    ways = [_beside(one, other, way) for box in (one, other) for way in box.axes]
    widest = max(ways)
    return widest if widest <= 0.0 else min(_corner_ways(one, other))


def least_room(one: Solid, other: Solid) -> float:
    """What the room of two bodies is at least: that of the balls around them. It is quick."""
    return dist(one.middle, other.middle) - hypot(*one.half) - hypot(*other.half)


def room_between(one: Solid, other: Solid) -> float:
    """Distance of two bodies; negative: how deep they stand in each other, which is the least way
    that clears one of the other (separating axes of two convex prisms).
    """
    level = seen_from_above(one, other)
    apart = abs(one.middle[2] - other.middle[2])
    upright = apart - one.half[2] - other.half[2]
    widest = max(level, upright)
    if widest <= 0.0:
        return widest
    return hypot(max(0.0, level), max(0.0, upright))
