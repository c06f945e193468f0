"""What to beep-test and measure before power goes on: from the nets, in the physical order of each
board's contacts.
"""

from collections.abc import Collection
from dataclasses import dataclass
from itertools import pairwise

from builder.compute.circuit.nets import Netlist
from builder.compute.circuit.rails import RailRow
from builder.compute.formulas.electric.capacitors import chirp_time
from builder.compute.power_up.open_pads import dead_place, live_place
from builder.model.build import Build, Contact, Fitted
from builder.model.kinds import Capacitor, Motor
from builder.model.source.electrical import Pad

METER_OHMS = 1000.0  # source resistance of a hand meter's beep test (common practice, no source)
# Ω below which meters beep: they differ from model to model (common practice, no source).
BEEP_BELOW = (20.0, 50.0)
_TOO_LONG = (
    0.2  # s: a beep that lasts longer is a fault, whatever the meter (common practice, no source)
)


@dataclass(frozen=True)
class GateReading:
    """One reading with the power off: between two places, what is expected, and why."""

    between: tuple[str, str]
    expect: str
    why: str


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


def _names(fitted: Fitted) -> tuple[str, ...]:
    return tuple(f"{fitted.key}.{piece}" if piece else fitted.key for piece in fitted.pieces)


def charging(farads: float | None) -> tuple[str, str]:
    """What a meter does at the battery's plus and minus, and why."""
    short = "red lead on plus. A beep that stays is a short: find it before any power is put on"
    if farads is None:
        return (
            "a short beep or none, then rises to kilo-ohms or more",
            f"{short}. The capacitance is not known, so nor is the time",
        )
    if not farads:
        return "no beep; rises to kilo-ohms or more", short
    low, high = (1000 * t for t in beep_times(farads))
    limit = max(_TOO_LONG, 2 * high / 1000)
    return (
        (
            f"one short beep or none (computed: {low:.0f} to {high:.0f} ms), then rises to"
            " kilo-ohms or more"
        ),
        (
            f"{short}. Longer than {limit:.1f} s is a fault. The capacitor charges through the"
            f" meter: about {METER_OHMS / 1000:g} kΩ, a beep below {BEEP_BELOW[0]:g} to"
            f" {BEEP_BELOW[1]:g} Ω"
        ),
    )


def battery_readings(
    build: Build, nets: Netlist, fitted: Fitted, on: Collection[str]
) -> list[GateReading]:
    """Plus to minus of each piece: kilo-ohms, after a short beep while the capacitors charge."""
    plus, minus = feed_of(fitted), ground_of(fitted)
    if plus is None or minus is None:
        return []
    out = []
    for piece, name in zip(fitted.pieces, _names(fitted), strict=True):
        contact = Contact(fitted.key, piece, plus)
        expect, why = charging(capacitance_at(build, nets, contact))
        place = dead_place(build, nets, contact, on)
        between = (f"{name}.{plus}", f"{name}.{minus}")
        if place.reach == "none":
            expect, why = (
                "no open pad: not measured here",
                f"{name}.{plus} is inside a plugged socket",
            )
        elif place.contact != contact:
            there = ground_of(build.parts[place.contact.part])
            between = (
                str(place.contact),
                f"{place.contact.board}.{there}" if there is not None else between[1],
            )
            why = (
                f"{name}.{plus} is inside a plugged socket; this is the same net. {_first_big(why)}"
            )
        out.append(GateReading(between, expect, why))
    return out


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
    why = "a contact that beeps to minus, or reads different from the other two, has a dead output behind it"
    return [
        GateReading((f"{name} {', '.join(pads)}", minus), "all three about equal, no beep", why)
        for name in _names(fitted)
        for _, pads in sorted(channels.items())
    ]


def supply_pad(build: Build, row: RailRow) -> Contact | None:
    """The first pad of a board that a rail stands on."""
    key, _, piece = row.source.part.partition(".")
    pads = build.parts[key].part.pads.items()
    pad = next((p for p, x in pads if x.role == "supply" and x.rail == row.source.name), None)
    return (
        Contact(key, int(piece) if piece else build.parts[key].pieces[0], pad)
        if pad is not None
        else None
    )


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
                    "no beep; some hundred ohms or more",
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
    for piece, name in zip(fitted.pieces, _names(fitted), strict=True):
        if nets.joined(
            Contact(fitted.key, piece, here), Contact(centre.key, centre.pieces[0], there)
        ):
            between = (f"{name}.{here}", f"{_names(centre)[0]}.{there}")
            out.append(
                GateReading(
                    between,
                    "beeps: under 0.5 Ω",
                    "all grounds are one net; without it nothing else reads true",
                )
            )
    return out


def _by_nature(build: Build, nets: Netlist, a: Contact, b: Contact) -> str:
    """Why two neighbours on different nets read low all the same, or ''."""
    one, two = build.pad(a), build.pad(b)
    if one.role == two.role == "phase" and one.channel == two.channel:
        low = "under 1 Ω between the three contacts of a channel with its motor on"
        return low if _wound(build, nets, a, b) else ""
    return _video(a.pad, one, b.pad, two) or _video(b.pad, two, a.pad, one)


def _wound(build: Build, nets: Netlist, a: Contact, b: Contact) -> bool:
    """Whether one motor's winding joins two contacts."""
    on_a = {c.board for c in nets.of[a].contacts if isinstance(build.parts[c.part].part, Motor)}
    return any(c.board in on_a for c in nets.of[b].contacts)


def _video(name: str, pad: Pad, other_name: str, other: Pad) -> str:
    if (
        pad.role in ("video-in", "video-out")
        and pad.resistance is not None
        and other.role == "ground"
    ):
        return f"{name} to {other_name} about {pad.resistance.value:g} Ω"
    return ""


def neighbour_readings(
    build: Build, nets: Netlist, fitted: Fitted, piece: int
) -> list[GateReading]:
    """Each edge of a board: neighbours on different nets are open, but for those that read low by
    nature.
    """
    edges = fitted.part.edges
    name = f"{fitted.key}.{piece}" if piece else fitted.key
    sides = [(f"{e} edge", getattr(edges, e)) for e in ("left", "right", "front", "rear")]
    sides += [
        (f"{e} edge of the underside", getattr(edges.under, e))
        for e in ("left", "right", "front", "rear")
    ]
    out = []
    for words, pads in sides:
        contacts = [Contact(fitted.key, piece, p) for p in pads if p in fitted.part.pads]
        different = [
            (a, b)
            for a, b in pairwise(contacts)
            if not nets.joined(a, b) and not (build.pad(a).battery and build.pad(b).battery)
        ]  # the battery's own pair has a reading of its own
        if not different:
            continue
        low = dict.fromkeys(why for a, b in different if (why := _by_nature(build, nets, a, b)))
        same = [f"{a.pad} to {b.pad}" for a, b in pairwise(contacts) if nets.joined(a, b)]
        why = "a beep between neighbours is a bridge of solder"
        why += f"; normal: {', '.join(low)}" if low else ""
        why += f"; one net, they beep: {', '.join(same)}" if same else ""
        out.append(
            GateReading(
                (f"{name}, {words}", " ".join(c.pad for c in contacts)),
                "each to its neighbour: no beep",
                why,
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
