"""A cable that is shorter than its way.

Checks: the length of each cable on the shelf against the straight way between the two parts that it
joins, less half of each part's size.
Why: a harness that is pulled tight lifts its plug out of the socket in the first hard landing.
Example: a cable of 30 mm between boards that stand 60 mm apart.
Mend: take a longer cable.
Source: common practice, no source
"""

from collections.abc import Iterator
from math import dist, fsum

from builder.compute.circuit.contacts import cable_of
from builder.diagnostics.finding import Severity
from builder.model.build import Build, PlugJoin
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT


def _way(build: Build, join: PlugJoin) -> float | None:
    """The straight way between two parts, less half of each; None where a place is not known."""
    ends = [build.parts[e[0]] for e in (join.start, join.end)]
    seats = [(f.use.at.x, f.use.at.y, f.use.at.z) for f in ends if f.use.at is not None]
    if len(seats) < 2:
        return None
    halves = fsum(max(f.part.size.along) / 2 for f in ends if f.part.size is not None)
    return max(0.0, dist(seats[0], seats[1]) - halves)


def check(case: Case) -> Iterator[Outcome]:
    for join in case.build.plugs:
        cable = cable_of(case.build, join)
        if cable is None:
            continue
        length, way = cable.part.length, _way(case.build, join)
        if length is None or way is None:
            lacks = f"length of {cable.key}" if length is None else "places of what it joins"
            yield NotJudged(lacks, cable.shelf_where)
        elif length.value >= way:
            yield Judged()
        else:
            text = say(
                "{} is {} long; its way is {}.", cable.key, given(length.value, "m"), made(way, "m")
            )
            at = cable.shelf_where.at("length")
            yield clash(text, "Take a longer cable.", join.where, at)
