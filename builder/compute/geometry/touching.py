"""What is near what: two bodies, and a body and the disc of a propeller, with the chance that they
touch.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import combinations
from math import hypot, sqrt
from statistics import NormalDist

from builder.compute.geometry.clearances import Disc, discs
from builder.compute.geometry.placed_bodies import PlacedBody, placed_bodies
from builder.compute.geometry.solids import Solid, least_room, room_between, seen_from_above
from builder.load.assumed import assumed
from builder.model.build import Build
from builder.model.kinds import Frame

_PLACE = assumed("weight and size/place-spread")
_SIZE = assumed("mounting/size-spread")
_FLEX = assumed("mounting/blade-flex")
_AIRFRAME = frozenset({"plate", "arm", "motor"})


@dataclass(frozen=True)
class Nearness:
    """Two bodies, the room between them in m (negative: how deep they stand in each other) and the
    chance that they touch, which comes from the spread of places and sizes.
    """

    first: PlacedBody
    second: PlacedBody
    room: float
    chance: float


@dataclass(frozen=True)
class DiscNearness:
    """A body and the motor's disc that comes nearest to it: room in m with the blades bent, and the
    chance that they touch.
    """

    body: PlacedBody
    motor: str
    room: float
    chance: float


def chance_to_touch(room: float, places: int) -> float:
    """The chance that two bodies touch whose room is known from so many places read with a ruler.

    The room has a normal spread. Half of the size of either body is in it.
    """
    of_places = _PLACE * sqrt(places)
    of_sizes = _SIZE * sqrt(0.5)
    spread = hypot(of_places, of_sizes)
    return NormalDist(0.0, spread).cdf(-room)


def can_meet(one: PlacedBody, other: PlacedBody) -> bool:
    """Two batteries of a build are flown in turn, plates and arms of a frame are fixed to each
    other, motors stand on them, and an antenna's wire bends.
    """
    sorts = {one.sort, other.sort}
    return "antenna" not in sorts and sorts != {"battery"} and not sorts <= _AIRFRAME


def _read(body: PlacedBody) -> int:
    """1 where a place was read with a ruler; that of a motor, a plate or an arm is the frame maker's."""
    return int(body.sort not in _AIRFRAME)


def near_bodies(build: Build) -> tuple[Nearness, ...]:
    """Each two bodies of known size that must not stand in each other, nearest first. The room of
    two that are far apart is the least that it can be.
    """
    out = []
    for one, other in combinations(placed_bodies(build), 2):
        if one.solid is None or other.solid is None or not can_meet(one, other):
            continue
        room = least_room(one.solid, other.solid)  # quick, and enough for most
        if room <= 0.0:
            room = room_between(one.solid, other.solid)
        places = _read(one) + _read(other)
        chance = chance_to_touch(room, places)
        out.append(Nearness(one, other, room, chance))
    return tuple(sorted(out, key=lambda n: n.room))


def _swept(disc: Disc, allowed: float | None) -> Solid:
    """What the blades sweep: they bend up and down by a share of their length."""
    radius = min(disc.radius, allowed) if allowed is not None else disc.radius
    return Solid(disc.middle, (radius, radius, _FLEX * disc.radius), is_round=True)


def _to_disc(body: PlacedBody, disc: Disc, swept: Solid, ducted: bool) -> DiscNearness | None:
    solid = body.solid if body.solid is not None else Solid(body.middle, (0.0, 0.0, 0.0))
    if ducted and seen_from_above(solid, swept) > 0.0:
        return None  # the ring of its duct stands between
    room = room_between(solid, swept)
    return DiscNearness(body, disc.motor, room, chance_to_touch(room, _read(body)))


def near_discs(build: Build) -> tuple[DiscNearness, ...]:
    """Each body but the motors with the disc that comes nearest to it, nearest body first."""
    bodies = (body for body in placed_bodies(build) if body.sort != "motor")
    return to_discs(build, bodies)


def to_discs(build: Build, bodies: Iterable[PlacedBody]) -> tuple[DiscNearness, ...]:
    """Each of these bodies with the disc that comes nearest to it, nearest body first.

    A disc counts no larger than the frame allows: a propeller that is too large is said once, not
    for each part.
    """
    frames = [f.part for f in build.of_kind(Frame)]
    allowed = min((f.disc_max.value / 2.0 for f in frames if f.disc_max), default=None)
    ducted = any(f.ducts for f in frames)
    swept = [(disc, _swept(disc, allowed)) for disc in discs(build)]
    out = []
    for body in bodies:
        found = (_to_disc(body, disc, solid, ducted) for disc, solid in swept)
        nearest = min((n for n in found if n is not None), key=lambda n: n.room, default=None)
        if nearest is not None:
            out.append(nearest)
    return tuple(sorted(out, key=lambda n: n.room))
