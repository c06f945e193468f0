"""A strap of the battery that lies where it may not, or that holds nothing.

Checks: each strap goes round the battery and its plate, across the aircraft. It presses on no part and no antenna.
It leaves the room before USB sockets, card slots and buttons free, and keeps clear of the discs of the propellers. Its
place is within the length of the battery. Each battery that is flown is looked at.
Why: a strap that a blade cuts lets the battery go. One over an antenna or a board presses it down in each landing.
Example: a strap that passes under the top plate over a receiver.
Mend: move the strap along the battery, or move the part.
Source: geometry; thickness, spread and limits are common practice, no source
"""

from collections.abc import Iterator

from builder.compute.geometry.placed_bodies import PlacedBody, placed_bodies
from builder.compute.geometry.reach import Blocked, ReachRoom, in_the_way, reach_rooms
from builder.compute.geometry.solids import room_between
from builder.compute.geometry.straps import StrapWay, strap_seats, strap_ways, straps
from builder.compute.geometry.touching import DiscNearness, near_discs, to_discs
from builder.diagnostics.finding import Severity, Signal
from builder.load.assumed import assumed, assumed_list
from builder.model.build import Build
from builder.rules.compare import clash
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import made, say, times_of

SEVERITY = Severity.FAULT
_GIVES = assumed("mounting/strap-gives")
_WORTH_A_WORD, _TOO_MUCH = assumed_list("mounting/disc-chance")
_PRESSED = ("part", "antenna")  # plates and arms bear a strap, and batteries are what it holds
_MOVE = "Move the strap along the battery, or move what is under it."


def _depth(piece: PlacedBody, body: PlacedBody) -> float:
    """How deep a piece of a strap stands in a body, in m; negative where it is clear of it."""
    if piece.solid is None or body.solid is None:
        return -1.0
    return -room_between(piece.solid, body.solid)


def _pressed(build: Build, way: StrapWay) -> Iterator[Found]:
    """What the strap presses on; a part that the battery stands in too has its own finding."""
    bodies = placed_bodies(build)
    battery = [b for b in bodies if b.what == way.battery]
    for body in bodies:
        if body.sort not in _PRESSED:
            continue
        deep = max(_depth(piece, body) for piece in way.pieces)
        inside = max(_depth(b, body) for b in battery)
        if deep <= _GIVES or inside > _GIVES:
            continue
        text = say(
            "{}, round {}, goes {} deep through {}.",
            way.strap,
            way.battery,
            made(deep, "m"),
            body.name,
        )
        yield clash(text, _MOVE, way.where, body.where, Severity.REMARK)


def _over(room: ReachRoom, way: StrapWay) -> Found | None:
    """The strap before something that must be reached; a plug of a harness is in before it."""
    found = (in_the_way(room, piece) for piece in way.pieces)
    deepest = max((b for b in found if b is not None), key=_how_deep, default=None)
    if deepest is None:
        return None
    text = say(
        "{} goes {} deep through the room before the {}.",
        way.strap,
        made(deepest.deep, "m"),
        room.name,
    )
    return clash(text, _MOVE, way.where, room.where, Severity.REMARK)


def _how_deep(blocked: Blocked) -> float:
    return blocked.deep


def _cut(build: Build, way: StrapWay) -> Found | None:
    """A disc near the strap, where the battery itself is clear of it."""
    near_battery = (n for n in near_discs(build) if n.body.what == way.battery)
    if any(n.chance >= _WORTH_A_WORD for n in near_battery):
        return None
    near = next(iter(to_discs(build, way.pieces)), None)
    if near is None or near.chance < _WORTH_A_WORD:
        return None
    return _by_disc(way, near)


def _by_disc(way: StrapWay, near: DiscNearness) -> Found:
    place = "is {} from" if near.room > 0.0 else "stands {} inside"
    text = say(
        f"{{}} {place} the disc of motor {{}}. By the spread of sizes and places, a blade touches it in {{}}.",
        way.strap,
        made(abs(near.room), "m"),
        near.motor,
        times_of(near.chance),
    )
    severity = None if near.chance >= _TOO_MUCH else Severity.REMARK
    hint = "Move the strap away from that propeller, or take smaller propellers."
    return Found(text, hint, way.where, severity, Signal.WARNING)


def _judged(build: Build, way: StrapWay) -> Iterator[Outcome]:
    if way.lacks:
        yield NotJudged(f"the way of {way.strap}: {way.lacks}", way.where)
        return
    if way.misses:
        text = f"{way.strap} is not over {way.battery}: it lies before it or behind it."
        yield Found(text, "Correct its place, or that of the battery.", way.where)
        return
    found: list[Found | None] = [*_pressed(build, way), _cut(build, way)]
    found += [_over(room, way) for room in reach_rooms(build) if not room.for_cable]
    said = [f for f in found if f is not None]
    yield from said
    if not said:
        yield Judged()


def check(case: Case) -> Iterator[Outcome]:
    if not case.build.packs:
        return
    for strap in straps(case.build):
        if not strap_seats(strap):
            yield NotJudged(f"where each {strap.key} goes round the battery", strap.where)
    ways = strap_ways(case.build)
    if any(way.pieces for way in ways):
        parts = (b for b in placed_bodies(case.build) if b.sort in _PRESSED)
        unknown = {b.lacks: b for b in parts if b.solid is None}
        yield from (NotJudged(lacks, body.shelf_where) for lacks, body in unknown.items())
    told = set()
    for way in ways:
        for outcome in _judged(case.build, way):
            place = (way.strap, outcome.see) if isinstance(outcome, Found) else None
            if place not in told or place is None:
                yield outcome
            told.add(place)
