"""A part that stands inside another.

Checks: boards, cameras, radios, motors, capacitors, plugs, batteries, and the plates and arms of the frame. Each is
a box or a cylinder of its size at its place, turned as the build turns it. More than 2 mm of one inside another is
found. Parts without a size are compared by their places alone. An arm reaches from the middle to its motor.
Why: two bodies cannot be in one place. A wrong place also puts the balance and the lengths of wires wrong.
Example: a buzzer that stands 3 mm inside the video transmitter.
Mend: correct the place or the size of one of the two, or move it.
Source: geometry (separating axes); the limit is common practice, no source
"""

from collections.abc import Iterator
from itertools import combinations

from builder.compute.geometry.placed_bodies import PlacedBody, placed_bodies
from builder.compute.geometry.touching import can_meet, near_bodies
from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.model.build import Build
from builder.rules.compare import clash
from builder.rules.fit._airframe import frames
from builder.rules.rule import Case, Judged, NotJudged, Outcome
from builder.rules.say import made, say, times_of

SEVERITY = Severity.REMARK
_SLACK = assumed("mounting/body-slack")
_MEND = "Correct the place or the size of one of the two, or move it."


def _lacking(build: Build, bodies: list[PlacedBody]) -> Iterator[Outcome]:
    """What keeps bodies from being compared, once for each part."""
    if not bodies:
        return
    said = set()
    for body in bodies:
        if body.solid is None and body.what not in said:
            said.add(body.what)
            yield NotJudged(body.lacks, body.shelf_where)
    for frame, part in frames(build):
        if not part.plates:
            yield NotJudged(f"plates of {frame.key}", frame.shelf_where)
        if part.motors and (part.arm is None or part.arm_width is None):
            yield NotJudged(f"thickness and width of the arms of {frame.key}", frame.shelf_where)


def check(case: Case) -> Iterator[Outcome]:
    bodies = [b for b in placed_bodies(case.build) if b.sort != "antenna"]
    if len(bodies) < 2:
        return
    for near in near_bodies(case.build):
        if near.room >= -_SLACK:
            yield Judged()
            continue
        text = say(
            "{} stands {} inside {}. By the spread of sizes and places, they touch in {}.",
            near.second.name,
            made(-near.room, "m"),
            near.first.name,
            times_of(near.chance),
        )
        yield clash(text, _MEND, near.second.where, near.first.where)
    for one, other in combinations(bodies, 2):
        lacks = one.solid is None or other.solid is None
        if lacks and one.middle == other.middle and can_meet(one, other):
            words = f"{other.name} has the same place as {one.name}."
            yield clash(words, _MEND, other.where, one.where)
    yield from _lacking(case.build, bodies)
