"""Tips: what practice does with each, which one a joint takes, and how hot the iron is set."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from builder.compute.circuit.contacts import Join
from builder.compute.circuit.usual_pads import copper_behind, pad_area, usual_pad
from builder.compute.formulas.soldering.heat import (
    dwell_time,
)
from builder.compute.joints.soldering_bench import ZERO
from builder.compute.weight.wire_mass import copper_area
from builder.load.assumed import assumed, assumed_list
from builder.model.build import Build, Contact
from builder.model.values.measures import Gauge

Tip = Literal["fine", "medium", "broad"]


@dataclass(frozen=True, slots=True)
class Practice:
    """A tip class: iron in °C for tin-lead, dwell in s, longest bare end of the wire in m, heat
    that it passes in W/K.
    """

    iron: tuple[int, int]
    dwell: tuple[int, int]
    strip: float
    passes: float


_TIPS: tuple[Tip, ...] = ("fine", "medium", "broad")


def _practice() -> dict[Tip, Practice]:
    cool, hot = assumed_list("soldering/iron-from"), assumed_list("soldering/iron-to")
    short, long = assumed_list("soldering/dwell-from"), assumed_list("soldering/dwell-to")
    strip, passes = assumed_list("soldering/strip"), assumed_list("soldering/tip-passes")
    out: dict[Tip, Practice] = {}
    for i, tip in enumerate(_TIPS):
        iron = int(cool[i]), int(hot[i])
        dwell = int(short[i]), int(long[i])
        out[tip] = Practice(iron, dwell, strip[i], passes[i])
    return out


PRACTICE = _practice()
TIP_WIDE = dict(zip(_TIPS, assumed_list("soldering/tip-width"), strict=True))
LEADFREE_MORE = int(assumed("soldering/lead-free-more"))  # °C
HOTTEST = int(assumed("soldering/iron-hottest"))  # °C
_MEDIUM, _BROAD = assumed_list("soldering/tip-from")
_ROOM = assumed("soldering/broad-tip-room")
_STEP = int(assumed("soldering/iron-step"))  # °C


def gauge_of(build: Build, join: Join) -> Gauge | None:
    """The gauge of a wire, or of the lead that its part came with."""
    if join.wire is not None and join.wire.gauge is not None:
        return join.wire.gauge
    leads = build.parts[join.a.part].part.leads
    return leads.gauge if leads is not None else None


def tip_for(loss: float, narrow: float, room: float | None = None) -> Tip:
    """The tip class for a joint that loses so many W for each kelvin, on a pad so many m wide.

    `room` is how wide a tip may be (m) before it reaches a neighbour; None where nobody says.
    """
    if loss >= _BROAD and narrow >= _ROOM and _has_room("broad", room):
        return "broad"
    return "medium" if loss >= _MEDIUM and _has_room("medium", room) else "fine"


def _has_room(tip: Tip, room: float | None) -> bool:
    return room is None or TIP_WIDE[tip] < room


def _room(build: Build, contact: Contact) -> float | None:
    """How wide a tip on a pad may be before it reaches a neighbour, in m. Where neither size, gap
    nor pitch is said, the narrowest row that is usual counts; else None where gap and pitch are not.
    """
    pad, area = build.pad(contact), pad_area(build, contact)
    narrow = area.narrowest
    rooms = []
    if pad.gap is not None:
        rooms.append(narrow + 2.0 * pad.gap.value)
    if pad.pitch is not None and pad.pad_size is not None:
        rooms.append(2.0 * pad.pitch.value - narrow)
    if pad.gap is None and pad.pitch is None and area.basis:
        rooms.append(2.0 * usual_pad(build, contact).pitch.least - narrow)
    return min(rooms, default=None)


def takes_tip(build: Build, contact: Contact, tip: Tip) -> bool:
    """Whether a tip fits on a contact without touching its neighbour; yes where nobody says."""
    wide_enough = tip != "broad" or pad_area(build, contact).narrowest >= _ROOM
    return wide_enough and _has_room(tip, _room(build, contact))


def _thick_battery(build: Build, contact: Contact, wires: Sequence[Join]) -> bool:
    """A battery contact with a lead of 18 AWG or thicker, on a pad whose size nobody says."""
    pad = build.pad(contact)
    if not pad.battery or pad.pad_size is not None:
        return False
    areas = [copper_area(g) for g in (gauge_of(build, j) for j in wires) if g is not None]
    return max(areas, default=0.0) >= copper_area(Gauge(18, None)) * (1.0 - 1e-9)


def tip_of(build: Build, contact: Contact, wires: Sequence[Join], loss: float, cup: bool) -> Tip:
    """The tip for one joint: by its loss and its room; a battery's thick lead takes the broad one."""
    if cup:
        return tip_for(loss, 1.0) if loss else "medium"
    room = _room(build, contact)
    if _thick_battery(build, contact, wires) and _has_room("broad", room):
        return "broad"
    if loss:
        return tip_for(loss, pad_area(build, contact).narrowest, room)
    return "fine" if copper_behind(build, contact) == "signal" else "medium"


def setting_for(
    tip: Tip, heat: float, loss: float, working: float, ambient: float, lead_free: bool
) -> tuple[tuple[int, int], int]:
    """The usual range of a tip, and the lowest step in it that is hot enough within the usual
    dwell; °C.

    `heat` in J, `loss` in W/K, `working` and `ambient` in K. The top of the range where no step is.
    """
    more = LEADFREE_MORE if lead_free else 0
    low, high = (t + more for t in PRACTICE[tip].iron)
    high = min(high, HOTTEST)
    for step in range(low, high, _STEP):
        try:
            dwell = dwell_time(heat, working, step + ZERO, ambient, PRACTICE[tip].passes, loss)
        except ValueError:  # it never gets hot enough
            continue
        if dwell <= PRACTICE[tip].dwell[1]:
            return (low, high), step
    return (low, high), high
