"""The bodies of a build where they are placed: parts, motors, batteries, plates and arms of the frame.

What goes through others, round them or over them is no body: screws, straps, sleeves, cables,
printed holders.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import atan2, hypot

from builder.compute.geometry.clearances import SpacePoint, hanging, motor_places, point
from builder.compute.geometry.solids import Solid
from builder.diagnostics.where import Where
from builder.model.build import Build, Fitted, FittedPack
from builder.model.kinds import (
    Antenna,
    Buzzer,
    Camera,
    Capacitor,
    CombinedBoard,
    Compass,
    Connector,
    FlightController,
    Frame,
    Lights,
    Motor,
    Payload,
    Receiver,
    SatelliteReceiver,
    SpeedController,
    VideoTransmitter,
)
from builder.model.values.lengths_text import Position, Size

_KINDS = (
    Antenna,
    Buzzer,
    Camera,
    Capacitor,
    CombinedBoard,
    Compass,
    Connector,
    FlightController,
    Lights,
    Payload,
    Receiver,
    SatelliteReceiver,
    SpeedController,
    VideoTransmitter,
)


@dataclass(frozen=True)
class PlacedBody:
    """One body: its name, its middle, its outline (None where its size is not stated), where its
    place and its size are written.

    `what` is the part, the battery or the frame that it is of, `lacks` what its outline is not known
    for. `sort` says how it is judged:
    batteries are flown in turn, plates and arms belong together, and an antenna bends.
    """

    name: str
    what: str
    sort: str
    middle: SpacePoint
    solid: Solid | None
    where: Where
    shelf_where: Where
    lacks: str = ""


def _box(middle: SpacePoint, size: Size | None, yaw: float) -> Solid | None:
    if size is None or len(size.along) != 3:
        return None
    long, wide, tall = size.along
    return Solid(middle, (long / 2, wide / 2, tall / 2), yaw)


def _seats(fitted: Fitted) -> Iterator[tuple[str, Position, Where]]:
    """Each piece of a part with its place; pieces without places of their own have none."""
    for i, seat in enumerate(fitted.use.each_at):
        yield f"{fitted.key}.{i + 1}", seat, fitted.where.at("each_at", i)
    if fitted.use.at is not None and not fitted.use.each_at and fitted.count == 1:
        yield fitted.key, fitted.use.at, fitted.where.at("at")


def _parts(build: Build) -> Iterator[PlacedBody]:
    for fitted in build.of_kind(*_KINDS):
        sort = "antenna" if isinstance(fitted.part, Antenna) else "part"
        yaw = fitted.use.yaw.value if fitted.use.yaw is not None else 0.0
        for name, seat, where in _seats(fitted):
            middle = (seat.x, seat.y, seat.z)
            solid = _box(middle, fitted.part.size, yaw)
            lacks = f"size of {fitted.key}"
            yield PlacedBody(
                name, fitted.key, sort, middle, solid, where, fitted.shelf_where, lacks
            )


def _motors(build: Build) -> Iterator[PlacedBody]:
    """Motors as upright cylinders on the places of the frame, which are those of their feet."""
    places = motor_places(build)
    for fitted in build.of_kind(Motor):
        down = hanging(places, fitted.use.face)
        size = fitted.part.size
        across = max(size.along[:2]) if size is not None and len(size.along) > 1 else None
        tall = fitted.part.height.value if fitted.part.height is not None else None
        for number, (x, y, z) in places.items():
            solid = None
            if across is not None and tall is not None:
                half = (across / 2, across / 2, tall / 2)
                up = -tall / 2 if number in down else tall / 2
                solid = Solid((x, y, z + up), half, is_round=True)
            name = f"{fitted.key}.{number}"
            middle = (x, y, z)
            at, shelf, lacks = fitted.where, fitted.shelf_where, f"size and height of {fitted.key}"
            yield PlacedBody(name, fitted.key, "motor", middle, solid, at, shelf, lacks)


def _batteries(pack: FittedPack) -> Iterator[PlacedBody]:
    """Each of the batteries that fly at once; one without an outline where only the middle of
    several is known.
    """
    name, key = f"battery {pack.key}", "each_at" if pack.use.each_at else "at"
    at, lacks = pack.where.at(key), f"size of {name}"
    for seat in pack.seats:
        middle = (seat.x, seat.y, seat.z)
        solid = _box(middle, pack.part.size, 0.0)
        yield PlacedBody(name, name, "battery", middle, solid, at, pack.shelf_where, lacks)
    middle_of_all = point(pack.middle)
    if not pack.seats and middle_of_all is not None:
        lacks = f"where each of the joined batteries {pack.key} is"
        yield PlacedBody(name, name, "battery", middle_of_all, None, at, pack.shelf_where, lacks)


def _plates(build: Build) -> Iterator[PlacedBody]:
    for frame in build.of_kind(Frame):
        for i, plate in enumerate(frame.part.plates):
            middle = (plate.at.x, plate.at.y, plate.at.z)
            yaw = plate.yaw.value if plate.yaw is not None else 0.0
            name, at = f"the {plate.what} of {frame.key}", frame.shelf_where.at("plates", i)
            solid = _box(middle, plate.size, yaw)
            lacks = f"thickness of {name}"
            yield PlacedBody(name, name, "plate", middle, solid, at, at, lacks)


def _arms(build: Build) -> Iterator[PlacedBody]:
    """Arms as boxes from the middle of the frame to each motor, which stands on top; none where
    their width or thickness is not stated.
    """
    for frame in build.of_kind(Frame):
        wide, thick = frame.part.arm_width, frame.part.arm
        if wide is None or thick is None:
            continue
        for number, end in (frame.part.motors or {}).items():
            middle = (end.x / 2, end.y / 2, end.z - thick.value / 2)
            half = (hypot(end.x, end.y) / 2, wide.value / 2, thick.value / 2)
            solid = Solid(middle, half, atan2(-end.y, end.x))
            name, at = f"arm {number} of {frame.key}", frame.shelf_where.at("motors", number)
            yield PlacedBody(name, name, "arm", middle, solid, at, at)


def placed_bodies(build: Build) -> tuple[PlacedBody, ...]:
    """Every body that has a place: plates and arms first, then parts, motors and batteries."""
    batteries = (body for pack in build.packs.values() for body in _batteries(pack))
    return (*_plates(build), *_arms(build), *_parts(build), *_motors(build), *batteries)
