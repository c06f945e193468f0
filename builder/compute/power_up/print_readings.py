"""What a gate measures of contacts that are known by their print only, before anything hangs on
them: each at itself, for copper that is thought to join it may not be there.
"""

from builder.compute.circuit.nets import Netlist
from builder.compute.circuit.print_pads import by_print
from builder.compute.circuit.rails import RailRow
from builder.compute.loops.series import ends_of_series
from builder.compute.power_up.gate_checks import BEEPS
from builder.compute.power_up.gate_readings import GateReading
from builder.compute.power_up.gate_volts import RailReading
from builder.compute.power_up.open_pads import plugged, reach_dead, reach_live
from builder.model.build import Build, Contact, Fitted
from builder.model.kinds import Connector

_NO_BEEP = "no beep"
_DRAWING = "the maker's drawing"


def doubtful_contacts(build: Build, nets: Netlist, fitted: Fitted) -> list[Contact]:
    """The wired or plugged contacts of a part that are known by their print only."""
    own = (Contact(fitted.key, piece, name) for piece in fitted.pieces for name in fitted.part.pads)
    return [c for c in own if c in nets.at and by_print(build.pad(c))]


def _sure_ground(build: Build, nets: Netlist, board: Contact) -> str:
    """Where the other probe goes: a ground that somebody wrote, of the board itself, else the minus
    of the battery's plug; '' where there is none.
    """
    pads = build.parts[board.part].part.pads.items()
    own = [n for n, p in pads if p.role == "ground" and not by_print(p)]
    if own:
        return str(Contact(board.part, board.piece, own[0]))
    ends = ends_of_series(nets)
    if ends is not None:
        return str(ends[1])
    for plug in build.of_kind(Connector):
        minus = [n for n, p in plug.part.pads.items() if p.role == "ground" and not by_print(p)]
        if minus:
            return str(Contact(plug.key, plug.pieces[0], minus[0]))
    return ""


def _at(nets: Netlist, contact: Contact, *, reached: bool) -> str:
    """Where the probe goes for a contact, in words."""
    if not reached and plugged(nets, contact):
        return f"{contact} at the free end of its cable, the other plug out"
    return str(contact)


def _ohms(build: Build, nets: Netlist, contact: Contact, ground: str) -> GateReading:
    role = build.pad(contact).role
    expect = BEEPS if role == "ground" else _NO_BEEP
    reached = reach_dead(build, nets, contact) == "open"
    if not reached and not plugged(nets, contact):
        why = f"{contact} is too narrow for a probe: compare its print with {_DRAWING}"
        return GateReading((str(contact), ground), "no open pad: not measured here", why)
    why = f"only its print says that it is {_AS[role]}. If it reads otherwise, solder nothing there"
    ohms = build.pad(contact).resistance
    low = ((f"{contact.pad} to ground", ohms.value),) if ohms is not None else ()
    return GateReading((_at(nets, contact, reached=reached), ground), expect, why, normal=low)


_AS = {
    "ground": "ground",
    "supply": "a supply",
    "draws": "where it is fed",
    "sends": "a line that sends",
    "listens": "a line that listens",
    "one-wire": "a line of data",
    "clock": "a clock line",
    "data": "a data line",
    "video-out": "a picture line",
    "video-in": "a picture line",
    "drive-out": "a motor line",
    "drive-in": "a motor line",
    "phase": "a motor lead",
    "light-in": "a line of lights",
    "light-out": "a line of lights",
    "sink": "a switched minus",
    "sense": "a line that measures",
    "ring": "part of a ring",
    "unconnected": "joined to nothing",
}


def print_readings(build: Build, nets: Netlist, fitted: Fitted) -> list[GateReading]:
    """Each doubtful contact of a board against a ground that is sure, with the power off."""
    out = []
    for contact in doubtful_contacts(build, nets, fitted):
        ground = _sure_ground(build, nets, contact)
        if ground and build.pad(contact).role != "unconnected":
            out.append(_ohms(build, nets, contact, ground))
    return out


def print_volts(
    build: Build, nets: Netlist, fitted: Fitted, rows: tuple[RailRow, ...]
) -> list[RailReading]:
    """The volts of each doubtful supply contact, read at itself while nothing hangs on it."""
    out = []
    for contact in doubtful_contacts(build, nets, fitted):
        pad = build.pad(contact)
        of_rail = (r for r in rows if (r.source.part, r.source.name) == (contact.board, pad.rail))
        row = next(of_rail, None)
        if pad.role == "supply" and row is not None:
            band = (row.low, row.high, row.volts)
            out.append(RailReading(str(contact), *band, (), reach_live(build, contact)))
    return out


def print_looks(build: Build, nets: Netlist, parts: tuple[str, ...]) -> list[GateReading]:
    """The doubtful contacts of loads: no meter tells plus from minus of a load, so they are
    compared with its paper.
    """
    out = []
    for key in parts:
        named = [c.pad for c in doubtful_contacts(build, nets, build.parts[key])]
        if named:
            pads = ", ".join(dict.fromkeys(named))
            why = "what these contacts are was taken from their prints alone"
            out.append(GateReading((f"{key}, {_DRAWING}", pads), "print and drawing agree", why))
    return out
