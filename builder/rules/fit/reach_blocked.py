"""Something that cannot be reached once all is in place.

Checks: the free room before USB sockets, card slots and buttons, and before each socket that a cable is plugged into.
No part, motor or plate stands in that room. A battery counts before a button only: for the others it is taken off.
Why: a plug that does not go in means that half of the aircraft has to be taken apart, for each change of a setting.
Example: a USB plug of 25 mm, and a frame's side plate 8 mm before the socket.
Mend: turn the board, move what is in the way, or take a plug with an angle.
Source: geometry; the spread of places is common practice, no source
"""

from collections.abc import Iterator

from builder.compute.geometry.placed_bodies import placed_bodies
from builder.compute.geometry.reach import Blocked, ReachRoom, blocked, reach_rooms
from builder.diagnostics.finding import Severity
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, NotJudged, Outcome
from builder.rules.say import made, say, times_of

SEVERITY = Severity.REMARK
_MEND = (
    "Turn the part, or move what is in the way. Say how a shorter plug goes in, if there is one."
)


def _found(room: ReachRoom, way: Blocked) -> Outcome:
    text = say(
        "{} stands {} inside the room before the {}. By the spread of sizes and places, it is in the way in {}.",
        way.body.name,
        made(way.deep, "m"),
        room.name,
        times_of(way.chance),
    )
    return clash(text, _MEND, way.body.where, room.where)


def check(case: Case) -> Iterator[Outcome]:
    rooms = reach_rooms(case.build)
    for room in rooms:
        if room.solid is None:
            yield NotJudged(room.lacks, room.where)
            continue
        way = blocked(case.build, room)
        yield _found(room, way) if way is not None else Judged()
    if any(room.solid is not None for room in rooms):
        unknown = {b.lacks: b for b in placed_bodies(case.build) if b.solid is None}
        yield from (NotJudged(lacks, body.shelf_where) for lacks, body in unknown.items())
