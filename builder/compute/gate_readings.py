"""What to ring and measure before power goes on: from the nets, in the physical order of each board's contacts."""

from dataclasses import dataclass
from itertools import pairwise

from builder.compute.nets import Netlist
from builder.compute.rails import RailRow
from builder.model.build import Build, Contact, Fitted
from builder.model.electrical import Pad
from builder.model.kinds import Capacitor, Motor

METER_OHMS = 1000.0  # source resistance of a hand meter's ringing range (common practice, no source)
_SHOWN = 0.05  # s: a shorter ring is not heard as one


@dataclass(frozen=True)
class Reading:
    """One reading with the pack away: between two places, what is expected, and why."""

    between: tuple[str, str]
    expect: str
    why: str


def ring_time(build: Build) -> float:
    """Seconds for which a meter rings while the capacitors charge: about R·C, for all of them in parallel."""
    farads = 0.0
    for fitted in build.of_kind(Capacitor):
        if fitted.part.capacitance is not None:
            farads += fitted.part.capacitance.value * fitted.count
    return METER_OHMS * farads


def ground_of(fitted: Fitted) -> str | None:
    """The pad that readings of a part are taken against: the battery's minus, else its first ground."""
    pads = fitted.part.pads
    battery = next((n for n, p in pads.items() if p.battery and p.role == "ground"), None)
    return battery or next((n for n, p in pads.items() if p.role == "ground"), None)


def feed_of(fitted: Fitted) -> str | None:
    """The pad through which a part is fed: the battery's plus, else as its supply says."""
    pads = fitted.part.pads
    battery = next((n for n, p in pads.items() if p.battery and p.role not in ("ground", "supply")), None)
    named = fitted.part.supply.pad if fitted.part.supply is not None else None
    return battery or named or next((n for n, p in pads.items() if p.role == "draws"), None)


def _names(fitted: Fitted) -> tuple[str, ...]:
    return tuple(f"{fitted.key}.{piece}" if piece else fitted.key for piece in fitted.pieces)


def battery_readings(build: Build, fitted: Fitted) -> list[Reading]:
    """Plus to minus of each piece: open, or ringing while the capacitors charge."""
    plus, minus, seconds = feed_of(fitted), ground_of(fitted), ring_time(build)
    if plus is None or minus is None:
        return []
    expect = "open: no ring"
    if seconds >= _SHOWN:
        expect = f"rings for about {seconds:.1f} s while the capacitor charges, then open"
    why = "red lead on plus. A steady ring is a short: find it before any power is put on"
    if seconds >= _SHOWN:
        why += f"; the time is R·C with a meter of about {METER_OHMS / 1000:g} kΩ"
    return [Reading((f"{name}.{plus}", f"{name}.{minus}"), expect, why) for name in _names(fitted)]


def phase_readings(build: Build, fitted: Fitted) -> list[Reading]:
    """The phases of each channel against minus."""
    minus = ground_of(fitted)
    channels: dict[int, list[str]] = {}
    for name, pad in fitted.part.pads.items():
        if pad.role == "phase" and pad.channel is not None:
            channels.setdefault(pad.channel, []).append(name)
    if minus is None:
        return []
    why = "a contact that rings to minus, or reads unlike the other two, has a dead output behind it"
    return [
        Reading((f"{name} {', '.join(pads)}", minus), "alike on all of them, and no ring", why)
        for name in _names(fitted)
        for _, pads in sorted(channels.items())
    ]


def rail_readings(build: Build, rows: tuple[RailRow, ...]) -> list[Reading]:
    """Each rail against ground."""
    out = []
    for row in rows:
        fitted = build.parts[row.source.part.split(".")[0]]
        pads = fitted.part.pads.items()
        pad = next((p for p, x in pads if x.role == "supply" and x.rail == row.source.name), None)
        ground = next((p for p, x in pads if x.role == "ground"), None)
        if pad and ground:
            between = (f"{row.source.part}.{pad}", f"{row.source.part}.{ground}")
            out.append(Reading(between, "no ring; some hundred ohms or more", "a ring is a bridge or a wrong wire"))
    return out


def ground_reading(build: Build, nets: Netlist, fitted: Fitted, centre: Fitted | None) -> list[Reading]:
    """Ground of a part to the ground that the pack's minus reaches: one net, so it rings."""
    if centre is None or centre is fitted:
        return []
    here, there = ground_of(fitted), ground_of(centre)
    if here is None or there is None:
        return []
    out = []
    for piece, name in zip(fitted.pieces, _names(fitted), strict=True):
        if nets.joined(Contact(fitted.key, piece, here), Contact(centre.key, centre.pieces[0], there)):
            between = (f"{name}.{here}", f"{_names(centre)[0]}.{there}")
            out.append(
                Reading(between, "rings: under 0.5 Ω", "all grounds are one net; without it nothing else reads true")
            )
    return out


def _by_nature(build: Build, nets: Netlist, a: Contact, b: Contact) -> str:
    """Why two neighbours on different nets read low all the same, or ''."""
    one, two = build.pad(a), build.pad(b)
    if one.role == two.role == "phase" and one.channel == two.channel:
        return "contacts of one channel, under an ohm once their motor is on" if _wound(build, nets, a, b) else ""
    return _video(a.pad, one, b.pad, two) or _video(b.pad, two, a.pad, one)


def _wound(build: Build, nets: Netlist, a: Contact, b: Contact) -> bool:
    """Whether one motor's winding joins two contacts."""
    on_a = {c.board for c in nets.of[a].contacts if isinstance(build.parts[c.part].part, Motor)}
    return any(c.board in on_a for c in nets.of[b].contacts)


def _video(name: str, pad: Pad, other_name: str, other: Pad) -> str:
    if pad.role in ("video-in", "video-out") and pad.resistance is not None and other.role == "ground":
        return f"{name} to {other_name} about {pad.resistance.value:g} Ω"
    return ""


def neighbour_readings(build: Build, nets: Netlist, fitted: Fitted, piece: int) -> list[Reading]:
    """Each edge of a board: neighbours on different nets are open, but for those that read low by nature."""
    edges = fitted.part.edges
    name = f"{fitted.key}.{piece}" if piece else fitted.key
    sides = [(f"{e} edge", getattr(edges, e)) for e in ("left", "right", "front", "rear")]
    sides += [(f"{e} edge of the underside", getattr(edges.under, e)) for e in ("left", "right", "front", "rear")]
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
        why = "a ring between neighbours is a bridge of solder"
        why += f"; low by nature: {', '.join(low)}" if low else ""
        why += f"; one net, they ring: {', '.join(same)}" if same else ""
        out.append(
            Reading((f"{name}, {words}", " ".join(c.pad for c in contacts)), "each to its neighbour: no ring", why)
        )
    return out


def load_readings(build: Build, nets: Netlist, contact: Contact, centre: Fitted | None) -> list[Reading]:
    """Supply to ground of one load, its ground to the board's, and its own neighbours."""
    fitted = build.parts[contact.part]
    ground = ground_of(fitted)
    out = []
    if ground is not None:
        other = Contact(contact.part, contact.piece, ground)
        out.append(Reading((str(contact), str(other)), "no ring", "a ring is a bridge, or the two leads are one"))
        if centre is not None and (there := ground_of(centre)) is not None:
            far = Contact(centre.key, centre.pieces[0], there)
            if nets.joined(other, far):
                why = "all grounds are one net"
                out.append(Reading((str(other), str(far)), "rings: under 0.5 Ω", why))
    return out + neighbour_readings(build, nets, fitted, contact.piece)
