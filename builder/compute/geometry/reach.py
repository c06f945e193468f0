"""The free room before what has to be reached: USB sockets, card slots, buttons, and the sockets that
a cable is plugged into.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import atan2, hypot

from builder.compute.geometry.edge_places import on_edge
from builder.compute.geometry.placed_bodies import PlacedBody, placed_bodies
from builder.compute.geometry.solids import FloorSpot, Solid, room_between
from builder.compute.geometry.touching import chance_to_touch
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import Build, Fitted
from builder.model.kinds import CombinedBoard, FlightController
from builder.model.source.electrical import EdgeName, PadSide
from builder.model.values.lengths_text import Position, Size

_SLACK = assumed("mounting/body-slack")
_NAMES = {"usb": "USB socket", "card": "card slot", "button": "button"}


@dataclass(frozen=True)
class _Place:
    """Where on its part a thing is reached, and what room that takes."""

    edge: EdgeName | None
    side: PadSide
    along: float
    room: Size | None


@dataclass(frozen=True)
class ReachRoom:
    """The room before one thing; `solid` is None where it is not known, and `lacks` says why.

    `by_hand` says that it is pressed while the battery is on the aircraft, `for_cable` that its plug
    stays in.
    """

    part: str
    name: str
    solid: Solid | None
    lacks: str
    where: Where
    by_hand: bool = False
    for_cable: bool = False


@dataclass(frozen=True)
class Blocked:
    """What stands in the room before something, how deep (m), and the chance that it does."""

    body: PlacedBody
    deep: float
    chance: float


def _tall(fitted: Fitted) -> float:
    """Height of a part; 0 where it is not stated."""
    along = fitted.part.size.along if fitted.part.size is not None else ()
    return along[2] if len(along) > 2 else 0.0


def _ahead(seat: Position, spot: FloorSpot, out: FloorSpot, room: Size) -> Solid:
    """The room past an edge: it begins at the edge and looks the way that the edge does."""
    far, across, high = room.along
    x = seat.x + spot[0] + out[0] * far / 2
    y = seat.y + spot[1] + out[1] * far / 2
    half = (far / 2, across / 2, high / 2)
    yaw = atan2(-out[1], out[0])
    return Solid((x, y, seat.z), half, yaw)


def _above(fitted: Fitted, seat: Position, spot: FloorSpot, place: _Place, room: Size) -> Solid:
    """The room over or under a part; what is at an edge is reached just inside of it."""
    far, across, high = room.along
    sign = 1.0 if (place.side == "top") == (fitted.use.face != "down") else -1.0
    z = seat.z + sign * (_tall(fitted) + far) / 2
    yaw = fitted.use.yaw.value if fitted.use.yaw is not None else 0.0
    middle = (seat.x + spot[0], seat.y + spot[1], z)
    half = (across / 2, high / 2, far / 2)
    return Solid(middle, half, yaw)


def _solid(fitted: Fitted, place: _Place) -> Solid | None:
    """The room itself; None where the part's place, turn or size, the edge or the room is not known."""
    seat, room = fitted.use.at, place.room
    if seat is None or room is None or len(room.along) != 3:
        return None
    if place.edge is None:
        return _above(fitted, seat, (0.0, 0.0), place, room) if place.side != "edge" else None
    spot = on_edge(fitted, place.edge, place.along)
    middle = on_edge(fitted, place.edge, 0.5)
    if spot is None or middle is None:
        return None
    away = hypot(*middle)
    out = (middle[0] / away, middle[1] / away)
    if place.side == "edge":
        return _ahead(seat, spot, out, room)
    _, across, _ = room.along
    x = spot[0] - across / 2 * out[0]
    y = spot[1] - across / 2 * out[1]
    return _above(fitted, seat, (x, y), place, room)


def _reached(fitted: Fitted) -> Iterator[ReachRoom]:
    for key, said in fitted.part.reach.items():
        along = said.along.value if said.along is not None else 0.5
        place = _Place(said.edge, said.side, along, said.room)
        name = f"{_NAMES[key]} of {fitted.key}"
        lacks = f"where the {name} is, and the room before it"
        where = fitted.shelf_where.at("reach", key)
        solid = _solid(fitted, place)
        yield ReachRoom(fitted.key, name, solid, lacks, where, by_hand=key == "button")
    board = isinstance(fitted.part, FlightController | CombinedBoard)
    if board and "usb" not in fitted.part.reach:
        name = f"{_NAMES['usb']} of {fitted.key}"
        lacks = f"where the {name} is, and the room before it"
        yield ReachRoom(fitted.key, name, None, lacks, fitted.shelf_where)


def _plugged(build: Build) -> Iterator[ReachRoom]:
    """The room before each socket that a plug of the build goes into."""
    ends = {(end[0], end[2]) for join in build.plugs for end in (join.start, join.end)}
    for part, name in sorted(ends):
        fitted = build.parts[part]
        socket = fitted.part.sockets[name]
        if socket.edge is None:
            continue  # the plug of a lead: it goes where the other end is
        along = socket.along.value if socket.along is not None else 0.5
        solid = _solid(fitted, _Place(socket.edge, "edge", along, socket.room))
        lacks = f"room before socket {name} of {part} that its plug needs"
        where = fitted.shelf_where.at("sockets", name)
        yield ReachRoom(part, f"socket {name} of {part}", solid, lacks, where, for_cable=True)


def reach_rooms(build: Build) -> tuple[ReachRoom, ...]:
    """The room before everything that must be reached, in the order of the parts; sockets last."""
    reached = (room for fitted in build.parts.values() for room in _reached(fitted))
    return (*reached, *_plugged(build))


def in_the_way(room: ReachRoom, body: PlacedBody) -> Blocked | None:
    """How deep a body stands in the room before something; None where it leaves it free.

    An antenna's wire bends, and the battery is taken off before anything but a button is reached.
    """
    if room.solid is None or body.solid is None or body.what == room.part:
        return None
    if body.sort == "antenna" or (body.sort == "battery" and not room.by_hand):
        return None
    free = room_between(room.solid, body.solid)
    places = 2 if body.sort in ("part", "battery", "strap") else 1
    return Blocked(body, -free, chance_to_touch(free, places)) if free < 0.0 else None


def blocked(build: Build, room: ReachRoom) -> Blocked | None:
    """What stands deepest in the room before something; what the part itself stands in has a finding
    of its own.
    """
    bodies = placed_bodies(build)
    own = [b.solid for b in bodies if b.what == room.part and b.solid is not None]
    deepest = None
    for body in bodies:
        found = in_the_way(room, body)
        if found is None or any(_stands_in(solid, body) for solid in own):
            continue
        if deepest is None or found.deep > deepest.deep:
            deepest = found
    return deepest


def _stands_in(solid: Solid, body: PlacedBody) -> bool:
    """Whether a part stands deeper in a body than their boxes may."""
    return body.solid is not None and room_between(solid, body.solid) < -_SLACK
