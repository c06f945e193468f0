"""What to beep-test and measure before power goes on: from the nets, in the physical order of each
board's contacts.
"""

from collections.abc import Collection
from dataclasses import dataclass, replace

from builder.compute.circuit.nets import Netlist
from builder.compute.circuit.rails import RailRow
from builder.compute.formulas.electric.capacitors import chirp_time
from builder.compute.power_up.open_pads import dead_place
from builder.load.assumed import assumed, assumed_list
from builder.model.build import Build, Contact, Fitted, piece_names
from builder.model.kinds import Capacitor

METER_OHMS = assumed("first power-up/meter-ohms")
BEEP_BELOW = assumed_list("first power-up/beep-below")
_TOO_LONG = assumed("first power-up/beep-too-long")


@dataclass(frozen=True)
class Beep:
    """Seconds for which meters beep while a capacitor charges, and from which on it is a fault."""

    low: float
    high: float
    fault: float


@dataclass(frozen=True)
class GateReading:
    """One reading with the power off: between two places, what is expected, and why.

    `beep` is where a capacitor charges through the meter; `expect` then leaves its times to it.
    `normal` are neighbours that read low by nature, with their resistance (Ω) where it is known;
    `one_net` are neighbours that beep because they are one net. `since` is the gate at which the
    same was read before; `suspects` are the joints that a wrong reading points to. `pairs` are the
    contacts that it tells apart, two by two; empty where no contact can be read.

    No number of ohms is foretold where they go through semiconductors: only a beep or none, and
    what was read before.
    """

    between: tuple[str, str]
    expect: str
    why: str
    beep: Beep | None = None
    normal: tuple[tuple[str, float | None], ...] = ()
    one_net: tuple[str, ...] = ()
    since: str = ""
    suspects: tuple[str, ...] = ()
    pairs: tuple[tuple[Contact, Contact], ...] = ()


def capacitance_at(build: Build, nets: Netlist, contact: Contact) -> float | None:
    """Capacitance of all capacitors on the net of a contact (F), 0 without one; None if one of them
    is not known.
    """
    farads = 0.0
    for fitted in build.of_kind(Capacitor):
        pieces = [
            i for i in fitted.pieces if any(nets.joined(contact, c) for c in _pads_of(fitted, i))
        ]
        if pieces and fitted.part.capacitance is None:
            return None
        if fitted.part.capacitance is not None:
            farads += fitted.part.capacitance.value * len(pieces)
    return farads


def _pads_of(fitted: Fitted, piece: int) -> list[Contact]:
    return [Contact(fitted.key, piece, pad) for pad in fitted.part.pads]


def beep_times(farads: float) -> tuple[float, float]:
    """Seconds for which meters beep while they charge a capacitor, by the threshold of the meter."""
    low, high = (chirp_time(METER_OHMS, farads, ohms) for ohms in BEEP_BELOW)
    return low, high


def ground_of(fitted: Fitted) -> str | None:
    """The pad that readings of a part are taken against: the battery's minus, else its first
    ground.
    """
    pads = fitted.part.pads
    battery = next((n for n, p in pads.items() if p.battery and p.role == "ground"), None)
    return battery or next((n for n, p in pads.items() if p.role == "ground"), None)


def feed_of(fitted: Fitted) -> str | None:
    """The pad through which a part is fed: the battery's plus, else as its supply says."""
    pads = fitted.part.pads
    battery = next(
        (n for n, p in pads.items() if p.battery and p.role not in ("ground", "supply")), None
    )
    named = fitted.part.supply.pad if fitted.part.supply is not None else None
    return battery or named or next((n for n, p in pads.items() if p.role == "draws"), None)


def charging(between: tuple[str, str], farads: float | None) -> GateReading:
    """What a meter does at the battery's plus and minus, and why."""
    short = "red lead on plus. A beep that stays is a short: find it before any power is put on"
    if farads is None:
        why = f"{short}. The capacitance is not known, so nor is the time"
        return GateReading(between, "a short beep or none, then rises", why)
    if not farads:
        return GateReading(between, "no beep; rises", short)
    low, high = beep_times(farads)
    beep = Beep(low, high, max(_TOO_LONG, 2 * high))
    return GateReading(between, "one short beep or none", short, beep)


def battery_readings(
    build: Build, nets: Netlist, fitted: Fitted, on: Collection[str]
) -> list[GateReading]:
    """Plus to minus of each piece: no beep that stays, a short one while the capacitors charge."""
    plus, minus = feed_of(fitted), ground_of(fitted)
    if plus is None or minus is None:
        return []
    out = []
    for piece, name in zip(fitted.pieces, piece_names(fitted), strict=True):
        contact = Contact(fitted.key, piece, plus)
        place = dead_place(build, nets, contact, on)
        between = (f"{name}.{plus}", f"{name}.{minus}")
        inside = f"{name}.{plus} is inside a plugged socket"
        if place.reach == "none":
            out.append(GateReading(between, "no open pad: not measured here", inside))
            continue
        found = charging(between, capacitance_at(build, nets, contact))
        if place.contact != contact:
            found = _elsewhere(build, found, place.contact, inside)
        out.append(found)
    return out


def _elsewhere(build: Build, found: GateReading, at: Contact, inside: str) -> GateReading:
    """The same reading at an open pad of the same net."""
    there = ground_of(build.parts[at.part])
    minus = f"{at.board}.{there}" if there is not None else found.between[1]
    why = f"{inside}; this is the same net. {_first_big(found.why)}"
    return replace(found, between=(str(at), minus), why=why)


def _first_big(words: str) -> str:
    return words[:1].upper() + words[1:]


def phase_readings(build: Build, fitted: Fitted) -> list[GateReading]:
    """The phases of each channel against minus."""
    minus = ground_of(fitted)
    channels: dict[int, list[str]] = {}
    for name, pad in fitted.part.pads.items():
        if pad.role == "phase" and pad.channel is not None:
            channels.setdefault(pad.channel, []).append(name)
    if minus is None:
        return []
    why = (
        "a contact that beeps to minus, or differs from the other two, has a dead output behind it"
    )
    expect = "all three about equal, no beep"
    out = []
    for piece, name in zip(fitted.pieces, piece_names(fitted), strict=True):
        ground = Contact(fitted.key, piece, minus)
        for _, pads in sorted(channels.items()):
            pairs = tuple((Contact(fitted.key, piece, pad), ground) for pad in pads)
            place = f"{name} {', '.join(pads)}"
            out.append(GateReading((place, minus), expect, why, pairs=pairs))
    return out


def supply_pad(build: Build, row: RailRow) -> Contact | None:
    """The first pad of a board that a rail stands on."""
    key, _, piece = row.source.part.partition(".")
    pads = build.parts[key].part.pads.items()
    pad = next((p for p, x in pads if x.role == "supply" and x.rail == row.source.name), None)
    if pad is None:
        return None
    return Contact(key, int(piece) if piece else build.parts[key].pieces[0], pad)


def rail_readings(build: Build, rows: tuple[RailRow, ...]) -> list[GateReading]:
    """Each rail against ground."""
    out = []
    for row in rows:
        fitted = build.parts[row.source.part.split(".")[0]]
        pads = fitted.part.pads.items()
        pad = next((p for p, x in pads if x.role == "supply" and x.rail == row.source.name), None)
        ground = next((p for p, x in pads if x.role == "ground"), None)
        if pad and ground:
            between = (f"{row.source.part}.{pad}", f"{row.source.part}.{ground}")
            out.append(
                GateReading(
                    between,
                    "no beep; write the ohms down",
                    "a beep is a bridge or a wrong wire",
                )
            )
    return out


def ground_reading(
    build: Build, nets: Netlist, fitted: Fitted, centre: Fitted | None
) -> list[GateReading]:
    """Ground of a part to the ground that the pack's minus reaches: one net, so it beeps."""
    if centre is None or centre is fitted:
        return []
    here, there = ground_of(fitted), ground_of(centre)
    if here is None or there is None:
        return []
    out = []
    for piece, name in zip(fitted.pieces, piece_names(fitted), strict=True):
        if nets.joined(
            Contact(fitted.key, piece, here), Contact(centre.key, centre.pieces[0], there)
        ):
            between = (f"{name}.{here}", f"{piece_names(centre)[0]}.{there}")
            out.append(
                GateReading(
                    between,
                    "beeps: under 0.5 Ω",
                    "all grounds are one net; without it nothing else reads true",
                )
            )
    return out
