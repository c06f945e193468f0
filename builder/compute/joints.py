"""Every solder joint: a contact with all wires that end there, the heat it wants, the tip that gives it."""

from dataclasses import dataclass
from typing import Literal

from builder.compute.contacts import Join
from builder.compute.heating import Heat, heat_of
from builder.compute.nets import Netlist
from builder.model.build import Build, Contact
from builder.model.kinds import Antenna, Connector, Motor, Pack

Tip = Literal["fine", "medium", "broad"]


@dataclass(frozen=True, eq=False)
class Joint:
    """One heating: all wires at one contact. `cup` joints are a connector's; `neighbours` are pads at risk of a bridge."""

    contact: Contact
    wires: tuple[Join, ...]
    side: str
    cup: bool
    net: str
    heat: Heat
    neighbours: tuple[tuple[str, float], ...]

    @property
    def key(self) -> str:
        """Its name in the order of work."""
        return f"solder {self.contact}"

    @property
    def board(self) -> str:
        """The piece that it is on."""
        return self.contact.board

    @property
    def tip(self) -> Tip:
        """The tip class that its heat asks for."""
        return self.heat.tip


def _is_end_of_fitted_lead(build: Build, contact: Contact, join: Join) -> bool:
    """A lead that the maker fitted needs no joint at the part it came with."""
    wire = join.wire
    return wire is not None and wire.lead == "fitted" and join.a == contact


def _neighbours(build: Build, contact: Contact) -> tuple[tuple[str, float], ...]:
    """Pads beside this one along its edge, with the gap in mm."""
    part = build.parts[contact.part].part
    out = []
    for sides in (part.edges, part.edges.under):
        for edge in ("left", "right", "front", "rear"):
            row = getattr(sides, edge)
            if contact.pad in row:
                i = row.index(contact.pad)
                pad = part.pads[contact.pad]
                gap = 1000 * pad.gap.value if pad.gap is not None else 0.0
                out += [(row[k], gap) for k in (i - 1, i + 1) if 0 <= k < len(row)]
    return tuple(out)


def _side(build: Build, contact: Contact) -> str:
    part = build.parts[contact.part].part
    under = part.edges.under
    hidden = any(contact.pad in getattr(under, e) for e in ("left", "right", "front", "rear"))
    return "under" if hidden or part.pads[contact.pad].side == "under" else "top"


def joints(build: Build, nets: Netlist) -> tuple[Joint, ...]:
    """All joints in the order of the file's contacts."""
    out = []
    for contact in build.contacts:
        part = build.parts[contact.part].part
        wires = tuple(
            j for j in nets.at.get(contact, ()) if j.by == "wire" and not _is_end_of_fitted_lead(build, contact, j)
        )
        if not wires or isinstance(part, Motor | Pack | Antenna):
            continue
        cup = isinstance(part, Connector)
        out.append(
            Joint(
                contact,
                wires,
                _side(build, contact),
                cup,
                nets.of[contact].name,
                heat_of(build, contact, wires, cup=cup),
                _neighbours(build, contact),
            )
        )
    return tuple(out)
