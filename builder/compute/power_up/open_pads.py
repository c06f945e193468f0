"""Where a meter's probe can be put: a plugged socket is out of reach, and in a narrow row a slip
bridges two pads.

Limits are common practice, no source.
"""

from collections.abc import Collection
from dataclasses import dataclass
from typing import Literal

from builder.compute.circuit.nets import Netlist
from builder.load.assumed import assumed
from builder.model.build import Build, Contact
from builder.model.kinds import Capacitor, Connector, Motor

ProbeReach = Literal["open", "clamp", "none"]

_OPEN = assumed("first power-up/pad-open")
_TIGHT = assumed("first power-up/pad-tight")
_PITCH = assumed("first power-up/pad-pitch")


@dataclass(frozen=True, slots=True)
class ProbePlace:
    """Where a net is read: the contact, and how it is reached. `none`: nowhere; the contact is the
    one asked for.

    `clamp`: the row is narrow, or nobody says how wide it is; the probe is fixed there while the
    power is off.
    """

    contact: Contact
    reach: ProbeReach


def _in_socket(build: Build, contact: Contact) -> bool:
    sockets = build.parts[contact.part].part.sockets.values()
    return any(contact.pad in s.contacts for s in sockets)


def plugged(nets: Netlist, contact: Contact) -> bool:
    """Whether a cable or a plug sits on a contact."""
    return any(j.by == "plug" for j in nets.at.get(contact, ()))


def reach_live(build: Build, contact: Contact) -> ProbeReach:
    """How a contact is reached while there is power on it."""
    pad = build.pad(contact)
    pitch, gap = pad.pitch, pad.gap
    if _in_socket(build, contact) or pad.side == "under":
        return "none"
    if (pitch is not None and pitch.value < _PITCH) or (gap is not None and gap.value < _TIGHT):
        return "none"
    return "open" if gap is not None and gap.value >= _OPEN else "clamp"


def reach_dead(build: Build, nets: Netlist, contact: Contact) -> ProbeReach:
    """How a contact is reached with the power off: a slip does no harm, a plug on it or a narrow
    row is in the way.
    """
    pitch = build.pad(contact).pitch
    if plugged(nets, contact) or (pitch is not None and pitch.value < _PITCH):
        return "none"
    return "open"


def _candidates(
    build: Build, nets: Netlist, contact: Contact, on: Collection[str]
) -> list[Contact]:
    """The contact itself, then its part's, then those of other parts that are connected; what is
    sleeved is left out.
    """
    others = [c for c in nets.of[contact].contacts if c != contact and c.part in on]
    no_board = Capacitor | Connector | Motor
    found = [c for c in others if not isinstance(build.parts[c.part].part, no_board)]
    return [contact, *sorted(found, key=lambda c: c.part != contact.part)]


def live_place(build: Build, nets: Netlist, contact: Contact, on: Collection[str]) -> ProbePlace:
    """Where the volts of a contact are read. `on` are the parts that are connected by now."""
    row = [ProbePlace(c, reach_live(build, c)) for c in _candidates(build, nets, contact, on)]
    for wanted in ("open", "clamp"):
        for place in row:
            if place.reach == wanted:
                return place
    return ProbePlace(contact, "none")


def dead_place(build: Build, nets: Netlist, contact: Contact, on: Collection[str]) -> ProbePlace:
    """Where the ohms of a contact are read, with the power off."""
    for other in _candidates(build, nets, contact, on):
        if reach_dead(build, nets, other) == "open":
            return ProbePlace(other, "open")
    return ProbePlace(contact, "none")
