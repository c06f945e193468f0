"""What each ground wire and each ground contact of a plug carries: every current finds its way back
to its source.

A load sends its current into the ground of its own piece; it leaves the ground at the piece whose
rail feeds the load, or at the minus of the pack. A wire is taken out of its net in thought: what
starts on one side and ends on the other returns through it, so a shared way back carries the sum.
Of two opposite currents the larger counts: the other may be off.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import fsum

from builder.compute.circuit.contacts import Join
from builder.compute.circuit.feeds import PACK, Source
from builder.compute.circuit.nets import Net, Netlist
from builder.compute.circuit.rails import Supplied
from builder.compute.figures.figure import Figure, Unknown
from builder.compute.loops.shares import CurrentWay
from builder.compute.power.path_wires import Taken, joins_between, reach, shared, shared_equally
from builder.compute.power.ring_ways import Back, RingFlow, ring_ways
from builder.model.build import Build, Contact
from builder.model.kinds import Connector

_BACK, _OUT = ("ground", "sink"), ("supply", "draws")


@dataclass(frozen=True, eq=False)
class _Flow:
    """The current of one load: from its piece, back to its source."""

    board: str
    source: Source
    taken: Taken


def _ends(build: Build, net: Net, flow: _Flow) -> tuple[Contact, ...]:
    """Where a current leaves the net: at the pieces of its source, or at the minus of the pack."""
    if flow.source != PACK:
        return tuple(c for c in net.contacts if c.board == flow.source.part)
    packs = tuple(c for c in net.contacts if isinstance(build.parts[c.part].part, Connector))
    return packs or tuple(
        c for c in net.contacts if build.pad(c).role == "sink" and _switches(build, c)
    )


def _switches(build: Build, contact: Contact) -> bool:
    """Whether a contact of a switched minus is the board's that switches it, and not the load's."""
    return bool(build.parts[contact.part].part.rails)


def _side(contacts: Iterable[Contact], near: frozenset[Contact]) -> str:
    """On which side of a cut some contacts lie: near, far, both, or '' for none."""
    sides = {c in near for c in contacts}
    if len(sides) == 2:
        return "both"
    if not sides:
        return ""
    return "near" if True in sides else "far"


def _size(flows: list[_Flow]) -> float:
    return fsum(f.value for flow in flows for f in flow.taken.short if isinstance(f, Figure))


def _strength(flows: list[_Flow]) -> tuple[bool, float, int]:
    untold = any(isinstance(f, Unknown) for flow in flows for f in flow.taken.short)
    return untold, _size(flows), len(flows)


def _through(
    build: Build, net: Net, flows: list[_Flow], near: frozenset[Contact]
) -> tuple[list[_Flow], bool]:
    """The flows that cross a cut, those of the stronger direction, and whether they leave the near
    side. One of which somebody does not know the current may be the stronger.
    """
    crossing: dict[str, list[_Flow]] = {"near": [], "far": []}
    for flow in flows:
        begins = [c for c in net.contacts if c.board == flow.board]
        if all(build.pad(c).role == "sink" and _switches(build, c) for c in begins):
            continue  # what a board takes itself returns by its ground
        start = _side(begins, near)
        end = _side(_ends(build, net, flow), near)
        if {start, end} == {"near", "far"}:
            crossing[start].append(flow)
    stronger = max(crossing, key=lambda side: _strength(crossing[side]))
    return crossing[stronger], stronger == "near"


def _ring_flows(build: Build, net: Net, flows: list[_Flow]) -> list[RingFlow]:
    """The flows of a net with their ways through it, from the load's own copper to the source's."""
    out = []
    for flow in flows:
        begins = [c for c in net.contacts if c.board == flow.board]
        ends = _ends(build, net, flow)
        own = all(build.pad(c).role == "sink" and _switches(build, c) for c in begins)
        if begins and ends and not own:
            out.append(
                RingFlow(flow.board, flow.source, flow.taken, CurrentWay(begins[0], ends[0]))
            )
    return out


def _of_net(build: Build, net: Net, flows: list[_Flow]) -> Iterator[Back]:
    in_rings: list[Join] = []
    for join in joins_between(net):
        ends = {join.a.board, join.b.board}
        group = [j for j in joins_between(net) if {j.a.board, j.b.board} == ends]
        near = reach(net, (join.a,), frozenset(group))
        if join.b in near or not shared_equally(group):
            in_rings.append(join)  # the current has another way: each carries its share
            continue
        crossing, away = _through(build, net, flows, near)
        if not crossing:
            continue
        many, key = len(group), f"{build.name}/path/{join.a}-{join.b}"
        name = f"{join.a} to {join.b}"
        currents = [f.taken for f in crossing]
        all_steady = [f for t in currents for f in t.steady]
        all_short = [f for t in currents for f in t.short]
        steady = shared(f"{key}/steady", f"Current back through {name}", all_steady, many)
        short = shared(f"{key}/short", f"Peak current back through {name}", all_short, many)
        motors = any(t.motors for t in currents)
        towards = join.b if away else join.a
        yield Back(join, crossing[0].source, steady, short, many, motors, towards, 1.0 / many)
    yield from ring_ways(build, [net], in_rings, _ring_flows(build, net, flows))


def ways_back(
    build: Build,
    nets: Netlist,
    supplied: Iterable[Supplied],
    takers: dict[Contact, Taken],
    but: frozenset[str] = frozenset(),
) -> tuple[Back, ...]:
    """Every join of a ground or of a switched minus that carries a return, net by net, without the
    nets of these names.
    """
    flows = [
        _Flow(s.load.part, s.load.source, takers[s.load.pad])
        for s in supplied
        if s.load.source is not None
    ]
    out: list[Back] = []
    for net in (n for n in nets.nets if n.name not in but):
        roles = {build.pad(c).role for c in net.contacts}
        if roles & set(_BACK) and not roles & set(
            _OUT
        ):  # a supply on ground is the wiring's mistake
            out += _of_net(build, net, flows)
    return tuple(out)
