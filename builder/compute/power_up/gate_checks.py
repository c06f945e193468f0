"""What a gate asks besides its own boards: the battery lead end to end, the plug as it read at the
last gate, every wire of a load end to end, and for each reading the joints that a wrong one points
to.
"""

from collections.abc import Collection, Sequence
from dataclasses import replace
from string import ascii_uppercase

from builder.compute.circuit.nets import Netlist
from builder.compute.power_up.gate_readings import GateReading, feed_of, ground_of
from builder.compute.power_up.gate_volts import RailReading
from builder.model.build import Build, Contact, Fitted
from builder.model.kinds import Capacitor, Connector, FlightController, Motor, SpeedController

MOST_SUSPECTS = 6
BEEPS = "beeps: under 0.5 Ω"
_PASSIVE = (Connector, Capacitor, Motor)
_CENTRES = (SpeedController, FlightController)


def lead_readings(build: Build, nets: Netlist, fitted: Fitted) -> list[GateReading]:
    """Each pole of the battery's plug to its own contact of a board: a swapped pair and an open
    joint show here.
    """
    out = []
    why = "no beep: an open joint, or the two leads are swapped"
    for piece in fitted.pieces:
        for pad in (feed_of(fitted), ground_of(fitted)):
            if pad is None:
                continue
            here = Contact(fitted.key, piece, pad)
            plugs = [c for c in nets.of[here].contacts if _is_plug(build, c)]
            out += [GateReading((str(there), str(here)), BEEPS, why) for there in plugs]
    return out


def _is_plug(build: Build, contact: Contact) -> bool:
    return isinstance(build.parts[contact.part].part, Connector)


def as_before(readings: Sequence[GateReading], letter: str) -> list[GateReading]:
    """Readings of a net that was read at the gate before this one too."""
    if letter == ascii_uppercase[0]:
        return list(readings)
    before = ascii_uppercase[ascii_uppercase.index(letter) - 1]
    return [replace(r, since=before) for r in readings]


def _hangs(build: Build, contact: Contact) -> bool:
    """Whether a contact is on a load: on no board of the middle, nor on the battery path."""
    part = build.parts[contact.part].part
    return not isinstance(part, (*_CENTRES, *_PASSIVE))


def _under_a_board(build: Build, contact: Contact) -> bool:
    """Whether a contact is on the underside of a board of the middle: no probe reaches it once that
    is mounted, and its wire was tried before (`hidden_lines` of the joints).
    """
    centre = isinstance(build.parts[contact.part].part, _CENTRES)
    return centre and build.pad(contact).side == "under"


def wire_readings(build: Build) -> list[GateReading]:
    """Every wire of the loads end to end, a reading a load: an open joint or a swapped pair of any
    line shows before it gets power. A wire between two loads is the second one's.
    """
    ends: dict[str, dict[str, tuple[Contact, Contact]]] = {}
    for run in build.wires:
        near = next((c for c in (run.start, run.end) if _hangs(build, c)), None)
        if near is not None and run.start.board != run.end.board:
            far = run.end if near is run.start else run.start
            if _under_a_board(build, far):
                continue
            ends.setdefault(near.board, {})[f"{near.pad} to {far}"] = (near, far)
    why = "no beep: an open joint, or two wires are swapped"
    said = "each beeps to its own; else only wires of one net do"
    return [
        GateReading(
            (f"{board}, each wire end to end", ", ".join(row)), said, why, pairs=tuple(row.values())
        )
        for board, row in ends.items()
    ]


def _soldered(build: Build, nets: Netlist, contact: Contact, on: Collection[str]) -> list[Contact]:
    """The soldered contacts on the net of a contact, of what is connected by now."""

    def by_now(other: Contact) -> bool:
        return other.part in on or isinstance(build.parts[other.part].part, _PASSIVE)

    out = []
    for end in nets.of[contact].contacts:
        wires = [j for j in nets.at.get(end, ()) if j.by == "wire"]
        if any(by_now(j.a) and by_now(j.b) for j in wires):
            out.append(end)
    return out


def _row_of(build: Build, contact: Contact) -> tuple[str, ...]:
    edges = build.parts[contact.part].part.edges
    for side in (edges, edges.under):
        for row in (side.front, side.left, side.right, side.rear):
            if contact.pad in row:
                return tuple(row)
    return ()


def _side_by_side(build: Build, a: Contact, b: Contact) -> bool:
    """Whether two contacts are neighbours on one edge: a bridge between them joins their nets."""
    row = _row_of(build, a)
    if a.board != b.board or a.pad not in row or b.pad not in row:
        return False
    return abs(row.index(a.pad) - row.index(b.pad)) == 1


def _suspects(
    build: Build, nets: Netlist, ends: Sequence[Contact], on: Collection[str]
) -> tuple[str, ...]:
    """Joints that a wrong reading between contacts points to, the likeliest first: neighbours on
    the two nets, then all other joints on them.
    """
    rows = [_soldered(build, nets, end, on) for end in ends]
    found: list[Contact] = []
    if len(rows) == 2 and not nets.joined(ends[0], ends[1]):
        beside = [(a, b) for a in rows[0] for b in rows[1] if _side_by_side(build, a, b)]
        found = [c for pair in beside for c in pair]
    found += [c for row in rows for c in row]
    return tuple(dict.fromkeys(map(str, found)))


def with_suspects(
    build: Build, nets: Netlist, readings: Sequence[GateReading], on: Collection[str]
) -> list[GateReading]:
    """Each reading with its two contacts and the joints that a wrong one points to; rows of contacts
    name themselves.
    """
    out = []
    for reading in readings:
        ends = [build.by_name[name] for name in reading.between if name in build.by_name]
        joints = _suspects(build, nets, ends, on) if len(ends) == len(reading.between) else ()
        pairs = ((ends[0], ends[1]),) if len(ends) == 2 else reading.pairs
        out.append(replace(reading, suspects=joints, pairs=pairs))
    return out


def volts_with_suspects(
    build: Build, nets: Netlist, volts: Sequence[RailReading], on: Collection[str]
) -> list[RailReading]:
    """The same for volts: the joints on the net that is read."""
    out = []
    for v in volts:
        end = build.by_name.get(v.contact)
        joints = _suspects(build, nets, (end,), on) if end is not None else ()
        out.append(replace(v, suspects=joints))
    return out
