"""A cable that is shorter than its way.

Checks: the length of each cable on the shelf against the straight way between the two sockets that
it joins. Sockets lie on the edges of their boards, at the height of that side. Where an edge is not
known, the way between the two parts counts, less half of each part's size. A cable between edges
that look the same way also has to turn round: half a circle is taken. Where the cable
says how tight it may be bent, the shortest way with such bends counts.
Why: a harness that is pulled tight lifts its plug out of the socket in the first hard landing.
Example: a cable of 5 mm between boards that stand 11 mm above each other.
Mend: take a longer cable.
Source: geometry; shortest paths of bounded bend (Dubins 1957, from memory); 4 mm for where a socket really lies is
common practice, no source
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import dist, fsum, hypot

from builder.compute.circuit.contacts import cable_of
from builder.compute.geometry.bends import turn_round
from builder.compute.geometry.clearances import SpacePoint
from builder.compute.geometry.edge_places import on_edge
from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.model.build import Build, Fitted, PlugJoin
from builder.rules.compare import EXACT, clash
from builder.rules.rule import Case, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
_SLACK = assumed("wires/pad-place")
_ALONG = tuple(n / 20 for n in range(21))  # places along an edge, from end to end
_ALIKE = assumed("wires/turn-alike")


def _half_height(fitted: Fitted) -> float:
    along = fitted.part.size.along if fitted.part.size is not None else ()
    return along[2] / 2.0 if len(along) > 2 else 0.0


@dataclass(frozen=True)
class _Socket:
    """A socket whose edge is known: where it may lie along it, and the way that it looks."""

    places: tuple[SpacePoint, ...]
    looks: tuple[float, float]


def _socket(build: Build, end: tuple[str, int, str]) -> _Socket | None:
    fitted = build.parts[end[0]]
    socket, seat = fitted.part.sockets[end[2]], fitted.use.at
    if socket.edge is None or seat is None:
        return None
    middle = on_edge(fitted, socket.edge, 0.5)
    spots = [on_edge(fitted, socket.edge, share) for share in _ALONG]
    if middle is None:
        return None
    up = (socket.side == "under") == (fitted.use.face == "down")
    z = seat.z + (_half_height(fitted) if up else -_half_height(fitted))
    places = tuple((seat.x + s[0], seat.y + s[1], z) for s in spots if s is not None)
    out = hypot(*middle)
    return _Socket(places, (middle[0] / out, middle[1] / out))


def _between_parts(build: Build, join: PlugJoin) -> float | None:
    """The straight way between two parts, less half of each; None where a place is not known."""
    ends = [build.parts[e[0]] for e in (join.start, join.end)]
    seats = [f.use.at for f in ends if f.use.at is not None]
    if len(seats) < 2:
        return None
    a, b = seats
    halves = fsum(max(f.part.size.along) / 2 for f in ends if f.part.size is not None)
    level = max(0.0, hypot(a.x - b.x, a.y - b.y) - halves)
    upright = max(0.0, abs(a.z - b.z) - fsum(_half_height(f) for f in ends))
    return hypot(level, upright)


def _ways(build: Build, join: PlugJoin, bend: float | None) -> tuple[float, float] | None:
    """The straight way, and the least that a cable takes which turns round on it."""
    one, other = _socket(build, join.start), _socket(build, join.end)
    if one is None or other is None:
        way = _between_parts(build, join)
        return None if way is None else (way, way)
    between = min(dist(a, b) for a in one.places for b in other.places)
    straight = max(0.0, between - _SLACK)
    tight = bend if bend is not None else between / 2  # half a circle
    turned = max(0.0, turn_round(between, tight) - _SLACK)
    same_way = dist(one.looks, other.looks) < _ALIKE
    return straight, turned if same_way else straight


def check(case: Case) -> Iterator[Outcome]:
    for join in case.build.plugs:
        cable = cable_of(case.build, join)
        if cable is None:
            continue
        bend = cable.part.bend.value if cable.part.bend is not None else None
        length, ways = cable.part.length, _ways(case.build, join, bend)
        if length is None or ways is None:
            lacks = f"length of {cable.key}" if length is None else "places of what it joins"
            yield NotJudged(lacks, cable.shelf_where)
            continue
        straight, turned = ways
        if length.value >= turned - EXACT:
            yield Judged()
            continue
        at, long = cable.shelf_where.at("length"), given(length.value, "m")
        if length.value < straight - EXACT:
            text = say("{} is {} long; its way is {}.", cable.key, long, made(straight, "m"))
            yield clash(text, "Take a longer cable.", join.where, at)
            continue
        text = say(
            "{} is {} long. It turns round between two edges, which takes {}.",
            cable.key,
            long,
            made(turned, "m"),
        )
        yield clash(text, "Take a longer cable.", join.where, at, Severity.REMARK)
