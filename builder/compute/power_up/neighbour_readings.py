"""Beep tests between neighbours on a board, and of one load before it gets power."""

from collections.abc import Collection
from itertools import pairwise

from builder.compute.circuit.nets import Netlist
from builder.compute.power_up.gate_readings import GateReading, ground_of
from builder.compute.power_up.open_pads import live_place
from builder.model.build import Build, Contact, Fitted, piece_name
from builder.model.kinds import Motor
from builder.model.source.electrical import Pad

_NO_BEEP = "each to its neighbour: no beep"


def low_by_nature(
    build: Build, nets: Netlist, a: Contact, b: Contact
) -> tuple[str, float | None] | None:
    """Which two neighbours on different nets read low all the same, and how low; None where none
    do.
    """
    one, two = build.pad(a), build.pad(b)
    if one.role == two.role == "phase" and one.channel == two.channel:
        low = "under 1 Ω between the three contacts of a channel with its motor on"
        return (low, None) if _wound(build, nets, a, b) else None
    return _video(a.pad, one, b.pad, two) or _video(b.pad, two, a.pad, one)


def _wound(build: Build, nets: Netlist, a: Contact, b: Contact) -> bool:
    """Whether one motor's winding joins two contacts."""
    on_a = {c.board for c in nets.of[a].contacts if isinstance(build.parts[c.part].part, Motor)}
    return any(c.board in on_a for c in nets.of[b].contacts)


def _video(name: str, pad: Pad, other_name: str, other: Pad) -> tuple[str, float] | None:
    if pad.role not in ("video-in", "video-out") or other.role != "ground":
        return None
    return None if pad.resistance is None else (f"{name} to {other_name}", pad.resistance.value)


def neighbour_readings(
    build: Build, nets: Netlist, fitted: Fitted, piece: int
) -> list[GateReading]:
    """Each edge of a board: neighbours on different nets are open, but for those that read low by
    nature.
    """
    edges = fitted.part.edges
    name = piece_name(fitted.key, piece)
    sides = [(f"{e} edge", getattr(edges, e)) for e in ("left", "right", "front", "rear")]
    sides += [
        (f"{e} edge of the underside", getattr(edges.under, e))
        for e in ("left", "right", "front", "rear")
    ]
    out = []
    for words, pads in sides:
        contacts = [Contact(fitted.key, piece, p) for p in pads if p in fitted.part.pads]
        apart = [(a, b) for a, b in pairwise(contacts) if not nets.joined(a, b)]
        # the battery's own pair has a reading of its own
        different = [p for p in apart if not all(build.pad(c).battery for c in p)]
        if not different:
            continue
        by_nature = (low_by_nature(build, nets, a, b) for a, b in different)
        low = dict.fromkeys(found for found in by_nature if found is not None)
        same = [f"{a.pad} to {b.pad}" for a, b in pairwise(contacts) if nets.joined(a, b)]
        between = (f"{name}, {words}", " ".join(c.pad for c in contacts))
        expect, why = _NO_BEEP, "a beep between neighbours is a bridge of solder"
        beside = (*different, *(p for p in pairwise(contacts) if nets.joined(*p)))
        out.append(
            GateReading(
                between, expect, why, normal=tuple(low), one_net=tuple(same), pairs=tuple(beside)
            )
        )
    return out


def load_readings(
    build: Build, nets: Netlist, contact: Contact, centre: Fitted | None, on: Collection[str]
) -> list[GateReading]:
    """Supply to ground of one load, to where its volts are read, its ground to the board's, and its
    own neighbours.
    """
    fitted = build.parts[contact.part]
    ground = ground_of(fitted)
    out = []
    if ground is not None:
        other = Contact(contact.part, contact.piece, ground)
        out.append(
            GateReading(
                (str(contact), str(other)),
                "no beep",
                "a beep is a bridge, or the two leads are one",
            )
        )
        if centre is not None and (there := ground_of(centre)) is not None:
            far = Contact(centre.key, centre.pieces[0], there)
            if nets.joined(other, far):
                why = "all grounds are one net"
                out.append(GateReading((str(other), str(far)), "beeps: under 0.5 Ω", why))
    place = live_place(build, nets, contact, on)
    if place.reach != "none" and place.contact != contact:
        why = "its lead is whole: with the power on, its volts are read there"
        out.append(GateReading((str(contact), str(place.contact)), "beeps: under 0.5 Ω", why))
    return out + neighbour_readings(build, nets, fitted, contact.piece)
