"""Every single fault that a hand makes at the bench: an open joint of a wire, an open contact of a
plug, a bridge of neighbours, two wires of one device swapped; and a rail or a part that is dead.
"""

from collections.abc import Iterator
from itertools import combinations, pairwise
from typing import Literal

from builder.compute.circuit.nets import Netlist
from builder.frozen import value_class
from builder.model.build import Build, Contact, WireRun
from builder.model.kinds import Capacitor, Motor

FaultKind = Literal["open", "plug", "bridge", "swap", "rail", "part"]


@value_class(frozen=True, slots=True)
class SingleFault:
    """One thing that is wrong. `places` are its contacts: the two ends of a wire or of a plug's
    contact, two neighbours, the ends of two wires. `name` is a rail or a part.
    """

    kind: FaultKind
    places: tuple[Contact, ...] = ()
    name: str = ""


def _is_motor_or_capacitor(build: Build, run: WireRun) -> bool:
    parts = (build.parts[end.part].part for end in (run.start, run.end))
    return any(isinstance(p, Motor | Capacitor) for p in parts)


def _swaps(build: Build, nets: Netlist) -> Iterator[SingleFault]:
    """Two wires between the same two pieces, on two nets. A motor's only turn it the other way."""
    for one, other in combinations(build.wires, 2):
        boards = {one.start.board, one.end.board}
        same = boards == {other.start.board, other.end.board} and len(boards) == 2
        if not same or _is_motor_or_capacitor(build, one) or nets.joined(one.start, other.start):
            continue
        turned = one.start.board != other.start.board
        ends = (other.end, other.start) if turned else (other.start, other.end)
        yield SingleFault("swap", (one.start, one.end, *ends))


def _bridges(build: Build, nets: Netlist) -> Iterator[SingleFault]:
    """Neighbours on an edge that are on two nets."""
    for fitted in build.parts.values():
        edges = fitted.part.edges
        sides = (edges, edges.under)
        rows = [row for s in sides for row in (s.front, s.left, s.right, s.rear)]
        beside = [pair for row in rows for pair in pairwise(row)]
        for piece in fitted.pieces:
            for a, b in beside:
                pair = (Contact(fitted.key, piece, a), Contact(fitted.key, piece, b))
                known = all(c in nets.of for c in pair)
                if known and not nets.joined(*pair):
                    yield SingleFault("bridge", pair)


def rail_name(contact: Contact, rail: str) -> str:
    """A rail of a board by name."""
    return f"{contact.board} {rail}"


def _dead_rails(build: Build) -> Iterator[SingleFault]:
    supplies = [(c, build.pad(c).rail) for c in build.contacts if build.pad(c).role == "supply"]
    named = {rail_name(contact, rail): contact for contact, rail in supplies if rail}
    yield from (SingleFault("rail", (contact,), name) for name, contact in named.items())


def single_faults(build: Build, nets: Netlist) -> tuple[SingleFault, ...]:
    """All of them, opens first: they are the likeliest (common practice, no source)."""
    wires = dict.fromkeys((w.start, w.end) for w in build.wires if w.start.board != w.end.board)
    plugs = dict.fromkeys((j.a, j.b) for j in nets.joins if j.by == "plug")
    boards = dict.fromkeys(c.board for c in build.contacts if nets.of[c].connected)
    return (
        *(SingleFault("open", pair) for pair in wires),
        *(SingleFault("plug", pair) for pair in plugs),
        *_bridges(build, nets),
        *_swaps(build, nets),
        *_dead_rails(build),
        *(SingleFault("part", (), board) for board in boards),
    )
