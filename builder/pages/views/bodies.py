"""What stands where: each part with a place as a body in m, forward, left and up from the middle of
the frame's base.
"""

from collections.abc import Iterator
from math import cos, sin

from builder.compute.geometry.clearances import SpacePoint, motor_places, point
from builder.compute.geometry.straps import strap_seats, straps
from builder.frozen import value_class
from builder.model.build import Build, Fitted, FittedAs
from builder.model.kinds import Antenna, Frame, Hardware, Motor, Payload, Propeller
from builder.model.values.lengths_text import Position, Size
from builder.pages.tables.part_numbers import pack_key

FloorPoint = tuple[float, float]


@value_class(frozen=True, slots=True)
class Body:
    """A piece of a part. `floor` are its corners seen from above, clockwise from the front left one;
    none where its size is not stated. `loose` is what is drawn as an outline alone: batteries, the
    strap, what is carried.
    """

    key: str
    at: SpacePoint
    floor: tuple[FloorPoint, ...] = ()
    low: float = 0.0
    high: float = 0.0
    yaw: float | None = None
    down: bool = False
    loose: bool = False

    @property
    def span(self) -> tuple[float, float]:
        """From its rear to its front end."""
        along = [c[0] for c in self.floor] or [self.at[0]]
        return min(along), max(along)

    @property
    def across(self) -> tuple[float, float]:
        """From its right to its left side."""
        along = [c[1] for c in self.floor] or [self.at[1]]
        return min(along), max(along)


def _floor(at: SpacePoint, size: Size, yaw: float) -> tuple[FloorPoint, ...]:
    """Corners of a box that is turned clockwise, seen from above: left is +y, so right is -y."""
    long, wide = size.along[0] / 2, size.along[1] / 2
    c, s = cos(yaw), sin(yaw)
    own = ((long, wide), (long, -wide), (-long, -wide), (-long, wide))
    return tuple((at[0] + x * c + y * s, at[1] - x * s + y * c) for x, y in own)


def _body(fitted: Fitted, place: Position) -> Body:
    at, size, yaw = point(place), fitted.part.size, fitted.use.yaw
    assert at is not None
    turned = yaw.value if yaw is not None else None
    loose = isinstance(fitted.part, Payload)
    down = fitted.use.face == "down"
    if size is None or len(size.along) != 3:
        return Body(fitted.key, at, (), at[2], at[2], turned, down, loose)
    tall = size.along[2] / 2
    floor = _floor(at, size, turned or 0.0)
    return Body(fitted.key, at, floor, at[2] - tall, at[2] + tall, turned, down, loose)


def battery_bodies(build: Build) -> tuple[Body, ...]:
    """The batteries that have a place, largest first, so that each shows inside the one before."""
    found = []
    for key, pack in build.packs.items():
        size = pack.part.size
        if size is None or len(size.along) != 3:
            continue
        tall = size.along[2] / 2
        for seat in pack.seats:
            at = (seat.x, seat.y, seat.z)
            floor, low, high = _floor(at, size, 0.0), at[2] - tall, at[2] + tall
            found.append(Body(pack_key(key), at, floor, low, high, None, False, True))
    return tuple(sorted(found, key=lambda b: (b.low - b.high, b.key)))


def _straps(build: Build, fitted: FittedAs[Hardware]) -> Iterator[Body]:
    """Each piece of a strap goes round the largest battery, and those joined with it, across, where
    the build puts it.
    """
    batteries, width = battery_bodies(build), fitted.part.width
    if width is None or not batteries:
        return
    together = [b for b in batteries if b.key == batteries[0].key]
    right, left = min(b.across[0] for b in together), max(b.across[1] for b in together)
    low, high = min(b.low for b in together), max(b.high for b in together)
    half = width.value / 2
    for at in strap_seats(fitted):
        x = at[0]
        floor = ((x + half, left), (x + half, right), (x - half, right), (x - half, left))
        yield Body(fitted.key, at, floor, low, high, None, False, True)


def _pieces(fitted: Fitted) -> Iterator[Body]:
    if isinstance(fitted.part, Frame | Motor | Propeller):
        return
    if isinstance(fitted.part, Hardware):
        return
    yield from (_body(fitted, place) for place in fitted.said_places)


def bodies(build: Build) -> tuple[Body, ...]:
    """Every piece with a place, lowest first; without frame, motors and propellers, which have
    their own lines, and without screws and nuts, which the drawing of the stack has.
    """
    found = [b for f in build.parts.values() for b in _pieces(f)]
    found += [b for f in straps(build) if f.part.form == "strap" for b in _straps(build, f)]
    return (*sorted(found, key=lambda b: (b.high, b.key)), *battery_bodies(build))


def rotor_places(build: Build) -> dict[str, SpacePoint]:
    """The motors by number."""
    return motor_places(build)


def is_antenna(build: Build, key: str) -> bool:
    """Whether a body is an antenna, whose size is that of its wire."""
    fitted = build.parts.get(key)
    return fitted is not None and isinstance(fitted.part, Antenna)
