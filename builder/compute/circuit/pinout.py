"""Pinout by board in physical order, the map of serial ports, and the list of wires to cut."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import fsum

from builder.compute.circuit.contacts import Join, in_mating_order
from builder.compute.circuit.nets import Netlist
from builder.model.build import Build, Contact
from builder.model.source.electrical import Pad

# IEC 60757, letters for colours (read in a faithful copy).
IEC_60757 = {
    "black": "BK",
    "brown": "BN",
    "red": "RD",
    "orange": "OG",
    "yellow": "YE",
    "green": "GN",
    "blue": "BU",
    "violet": "VT",
    "purple": "VT",
    "grey": "GY",
    "gray": "GY",
    "white": "WH",
    "pink": "PK",
    "gold": "GD",
    "turquoise": "TQ",
    "silver": "SR",
    "green and yellow": "GNYE",
}


@dataclass(frozen=True)
class PinRow:
    """One contact of a board: where it lies, what it is, and each wire or plug that ends there."""

    contact: Contact
    pad: Pad
    place: str
    joins: tuple[Join, ...]
    others: tuple[Contact, ...]


@dataclass(frozen=True)
class BoardPins:
    """All contacts of a piece in physical order: edges of the top, of the underside, sockets, then
    the rest.
    """

    board: str
    part: str
    rows: tuple[PinRow, ...]


@dataclass(frozen=True)
class SerialLine:
    """One serial port of a board and what is joined to its two pads."""

    board: str
    port: int
    sends: str
    listens: str
    serves: tuple[str, ...]
    set_to: str
    speaks: str


@dataclass(frozen=True)
class Cut:
    """Wires to cut of one gauge and colour: lengths in m, longest first."""

    gauge: str
    colour: str
    letters: str
    pieces: tuple[tuple[float, str], ...]

    @property
    def total(self) -> float:
        """All pieces together, in m."""
        return fsum(length for length, _ in self.pieces)


@dataclass(frozen=True)
class Pinout:
    """Boards with their contacts, serial ports, wires to cut, leads to trim."""

    boards: tuple[BoardPins, ...]
    serial: tuple[SerialLine, ...]
    cuts: tuple[Cut, ...]
    trims: tuple[tuple[str, float], ...]


def letters(colour: str) -> str:
    """The IEC 60757 letters of an English colour name; empty for a name that the standard does not
    know.
    """
    return IEC_60757.get(colour.casefold().strip(), "")


def _places(build: Build, key: str) -> Iterator[tuple[str, str]]:
    """Pads with the words for their place, in physical order."""
    part = build.parts[key].part
    for edge in ("front", "left", "right", "rear"):
        yield from ((p, f"{edge} edge") for p in getattr(part.edges, edge))
    for edge in ("front", "left", "right", "rear"):
        yield from ((p, f"underside, {edge} edge") for p in getattr(part.edges.under, edge))
    for name, socket in part.sockets.items():
        yield from ((p, f"{name}, contact {i}") for i, p in enumerate(in_mating_order(socket), 1))
    yield from ((p, "") for p in part.pads)


def _board(build: Build, nets: Netlist, key: str, piece: int) -> BoardPins:
    part = build.parts[key].part
    rows: dict[str, PinRow] = {}
    for name, place in _places(build, key):
        if name in rows or name not in part.pads:
            continue
        contact = Contact(key, piece, name)
        joins = nets.at.get(contact, ())
        others = tuple(j.b if j.a == contact else j.a for j in joins)
        rows[name] = PinRow(contact, part.pads[name], place, joins, others)
    first = next(iter(rows.values())).contact
    return BoardPins(first.board, key, tuple(rows.values()))


def _serial(build: Build, nets: Netlist) -> Iterator[SerialLine]:
    for fitted in build.parts.values():
        ports = sorted({p.serial for p in fitted.part.pads.values() if p.serial is not None})
        for port in ports:
            ends: dict[str, list[str]] = {"sends": [], "listens": []}
            served: list[str] = []
            for name, pad in fitted.part.pads.items():
                if pad.serial != port or pad.role not in ends:
                    continue
                contact = Contact(fitted.key, fitted.pieces[0], name)
                others = (
                    [c for c in nets.of[contact].contacts if c.board != contact.board]
                    if contact in nets.at
                    else []
                )
                ends[pad.role] += [f"{name} to {c}" for c in others] or [f"{name} free"]
                served += [c.board for c in others]
            use = next((u for u in build.source.setup.serial if u.port == port), None)
            serves, speaks = (use.serves, use.speaks or "") if use else ("", "")
            sends, listens = (", ".join(ends[role]) for role in ("sends", "listens"))
            boards = tuple(dict.fromkeys(served))
            yield SerialLine(fitted.key, port, sends, listens, boards, serves, speaks)


def _cuts(build: Build) -> tuple[Cut, ...]:
    found: dict[tuple[str, str], list[tuple[float, str]]] = {}
    for run in build.wires:
        if run.wire.gauge is not None and run.wire.length is not None and run.wire.lead is None:
            key = (run.wire.gauge.label, (run.wire.colour or "any colour").casefold().strip())
            found.setdefault(key, []).append((run.wire.length.value, f"{run.start} to {run.end}"))
    out = []
    for (gauge, colour), pieces in sorted(found.items()):
        longest_first = tuple(sorted(pieces, key=lambda p: (-p[0], p[1])))
        out.append(Cut(gauge, colour, letters(colour), longest_first))
    return tuple(out)


def pinout(build: Build, nets: Netlist) -> Pinout:
    """The tables that a person wires by."""
    boards = []
    wired: Mapping[Contact, object] = nets.at
    for fitted in build.parts.values():
        if not fitted.part.pads:
            continue
        for piece in fitted.pieces:
            if any(Contact(fitted.key, piece, p) in wired for p in fitted.part.pads):
                boards.append(_board(build, nets, fitted.key, piece))
    trimmed = ((r, r.wire.trim_to) for r in build.wires)
    trims = tuple((f"{r.start} to {r.end}", to.value) for r, to in trimmed if to is not None)
    return Pinout(tuple(boards), tuple(_serial(build, nets)), _cuts(build), trims)
