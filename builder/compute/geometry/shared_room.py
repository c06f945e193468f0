"""Which parts are written into one place: the share of the smaller one's box that lies in the other's.

A part counts as the box of its size around its place, turned in quarters as the build turns it. Two
parts of which one has no size are compared by their places alone.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations
from math import pi, prod

from builder.compute.geometry.clearances import SpacePoint, point
from builder.diagnostics.where import Where
from builder.model.build import Build, Fitted, FittedPack
from builder.model.kinds import (
    Buzzer,
    Camera,
    Capacitor,
    CombinedBoard,
    Compass,
    FlightController,
    Motor,
    Payload,
    Receiver,
    SatelliteReceiver,
    SpeedController,
    VideoTransmitter,
)

_BODIES = (
    Buzzer,
    Camera,
    Capacitor,
    CombinedBoard,
    Compass,
    FlightController,
    Motor,
    Payload,
    Receiver,
    SatelliteReceiver,
    SpeedController,
    VideoTransmitter,
)


@dataclass(frozen=True)
class SharedRoom:
    """Two bodies, the share of the smaller that lies within the other (1 where both are points at
    one place), and where each is placed.
    """

    first: str
    second: str
    share: float
    where: Where
    other: Where


@dataclass(frozen=True)
class _Body:
    name: str
    middle: SpacePoint
    sides: tuple[float, ...] | None
    where: Where
    battery: bool


def _sides(item: Fitted | FittedPack) -> tuple[float, ...] | None:
    """Lengths of the box forward, to the left and up; None where the part says no three."""
    size = item.part.size
    if size is None or len(size.along) != 3:
        return None
    use = item.use
    turn = getattr(use, "yaw", None)
    quarters = round(turn.value / (pi / 2)) if turn is not None else 0
    along, across, up = size.along
    return (across, along, up) if quarters % 2 else (along, across, up)


def _bodies(build: Build) -> Iterator[_Body]:
    for part in build.of_kind(*_BODIES):
        sides = _sides(part)
        for i, seat in enumerate(part.use.each_at):
            middle = (seat.x, seat.y, seat.z)
            where = part.where.at("each_at", i)
            yield _Body(f"{part.key}.{i + 1}", middle, sides, where, battery=False)
        at = point(part.use.at)
        if at is not None and not part.use.each_at and part.count == 1:
            yield _Body(part.key, at, sides, part.where.at("at"), battery=False)
    for pack in build.packs.values():
        at = point(pack.use.at)
        if at is not None:
            yield _Body(pack.key, at, _sides(pack), pack.where.at("at"), battery=True)


def _overlap(one: _Body, other: _Body) -> float:
    if one.sides is None or other.sides is None:
        return 1.0 if one.middle == other.middle else 0.0
    shared = [
        min(a + s / 2, b + t / 2) - max(a - s / 2, b - t / 2)
        for a, s, b, t in zip(one.middle, one.sides, other.middle, other.sides, strict=True)
    ]
    if min(shared) <= 0.0:
        return 0.0
    return prod(shared) / min(prod(one.sides), prod(other.sides))


def shared_rooms(build: Build) -> tuple[SharedRoom, ...]:
    """Each two bodies that fly together. Two batteries of a build are flown in turn."""
    pairs = combinations(_bodies(build), 2)
    together = ((a, b) for a, b in pairs if not (a.battery and b.battery))
    return tuple(SharedRoom(a.name, b.name, _overlap(a, b), b.where, a.where) for a, b in together)
