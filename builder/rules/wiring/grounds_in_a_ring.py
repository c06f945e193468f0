"""Grounds that are joined twice.

Checks: whether a ground wire closes a loop of grounds through other parts. Several wires between
the same two parts are none. A part that is fed by one board and joined to another by a signal
wants both grounds. If that signal is a picture, other returns may lose 10 mV in its ground.
Why: the return of a load takes both ways. In the ground of a picture it shows as stripes, and a
thin wire warms.
Example: a camera with a ground at the control board, and one at the video transmitter too.
Mend: keep one ground a part, beside its supply; join a shield at one end only.
Source: a picture has 1 V from peak to peak (ITU-R BT.470, from memory); 1 % of it is common practice, no
source
"""

from collections.abc import Iterator, Mapping, Sequence

from builder.compute.circuit.contacts import Join
from builder.compute.circuit.nets import Net
from builder.compute.figures.figure import Unknown
from builder.compute.loops.shares import copper_ohms
from builder.compute.power.path_wires import SupplyWire
from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.model.kinds import Capacitor, Connector, Motor
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import made, say
from builder.rules.wiring._nets import joined_nets, with_roles

SEVERITY = Severity.REMARK
_SHOWS = assumed("wires/shows-in-picture")
_NO_LOOP = (Capacitor, Connector, Motor)  # a ring through the battery is judged as batteries


def _grounds(case: Case, net: Net) -> list[Join]:
    """Wires and plugs of a net that join the grounds of two parts that take or hand on signals."""
    parts = case.build.parts
    joins = [j for j in net.joins if j.by != "inside" and j.a.board != j.b.board]
    return [
        j for j in joins if not any(isinstance(parts[c.part].part, _NO_LOOP) for c in (j.a, j.b))
    ]


def _way(near: Mapping[str, list[str]], start: str, goal: str) -> list[str]:
    """The shortest way between two pieces; nothing where there is none."""
    before: dict[str, str] = {start: ""}
    queue = [start]
    for here in queue:
        new = [n for n in near.get(here, ()) if n not in before]
        before |= dict.fromkeys(new, here)
        queue += new
    if goal not in before:
        return []
    way = [goal]
    while before[way[-1]]:
        way.append(before[way[-1]])
    return way[::-1]


def _triples(ring: Sequence[str]) -> Iterator[tuple[str, str, str]]:
    """Each piece of a ring between its two neighbours."""
    count = len(ring)
    for i in range(count):
        yield ring[i - 1], ring[i], ring[(i + 1) % count]


def _joined_by(case: Case, piece: str, other: str, feeds: bool) -> bool:
    """Whether a supply (or else a signal) goes directly between two pieces."""
    power, ground = {"supply", "draws"}, {"ground", "sink"}
    for join in case.results.netlist.joins:
        if {join.a.board, join.b.board} != {piece, other}:
            continue
        roles = {case.build.pad(c).role for c in (join.a, join.b)}
        if (roles <= power) if feeds else not roles & (power | ground):
            return True
    return False


def _wants_both(case: Case, one: str, piece: str, other: str) -> bool:
    """Whether a piece is fed by one neighbour and joined to the other by a signal only."""
    for feeder, partner in ((one, other), (other, one)):
        fed = _joined_by(case, piece, feeder, feeds=True)
        too = _joined_by(case, piece, partner, feeds=True)
        if fed and not too and _joined_by(case, piece, partner, feeds=False):
            return True
    return False


def _picture_between(case: Case, one: str, other: str) -> bool:
    """Whether a picture goes directly between two pieces."""
    for join in case.results.netlist.joins:
        roles = {case.build.pad(c).role for c in (join.a, join.b)}
        if {join.a.board, join.b.board} == {one, other} and roles & {"video-out", "video-in"}:
            return True
    return False


def _through_pictures(case: Case, ring: Sequence[str]) -> Iterator[Outcome]:
    """The grounds beside the pictures of a ring, by what returns there."""
    for one, other, _ in _triples(ring):
        if not _picture_between(case, one, other):
            continue
        for wire in case.results.path.returns:
            if {wire.run.start.board, wire.run.end.board} == {one, other}:
                yield _in_picture(wire)


def _in_picture(wire: SupplyWire) -> Outcome:
    """What a ground beside a picture loses of other returns."""
    gauge, name = wire.run.wire.gauge, f"{wire.run.start} to {wire.run.end}"
    length = wire.run.wire.trim_to or wire.run.wire.length
    if isinstance(wire.short, Unknown):
        return NotJudged(wire.short.missing[0], wire.run.where)
    if gauge is None or length is None:
        return NotJudged(f"gauge and length of {name}", wire.run.where)
    lost = wire.short.value * copper_ohms(gauge, length.value)
    if lost <= _SHOWS:
        return Judged()
    text = "Grounds are joined twice through the picture's ground: {} carries {}, and loses {}."
    told = say(text, name, wire.short, made(lost, "V"))
    return Found(told, "Feed both ends from one board, or take a thicker ground.", wire.run.where)


def _rings(case: Case, net: Net) -> Iterator[Outcome]:
    near: dict[str, list[str]] = {}
    for join in _grounds(case, net):
        one, other = join.a.board, join.b.board
        way = _way(near, one, other)
        wanted = any(_wants_both(case, *each) for each in _triples(way))
        if len(way) > 2 and wanted:
            yield from _through_pictures(case, way)
        elif len(way) > 2:
            text = f"{join.a} to {join.b} closes a loop of grounds: {' - '.join([*way, one])}."
            hint = "Keep one ground for each part, beside its supply."
            yield Found(text, hint, join.where)
        elif not way:
            near.setdefault(one, []).append(other)
            near.setdefault(other, []).append(one)


def check(case: Case) -> Iterator[Outcome]:
    for net in joined_nets(case):
        if not with_roles(case, net, "ground"):
            continue
        found = list(_rings(case, net))
        yield from found or [Judged()]
