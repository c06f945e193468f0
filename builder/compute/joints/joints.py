"""Every solder joint: a contact with all wires that end there in one heating, its place, neighbours
and heat.
"""

from dataclasses import dataclass

from builder.compute.circuit.contacts import Join
from builder.compute.circuit.nets import Netlist
from builder.compute.joints.heating import Heat, heat_of, likeness
from builder.compute.joints.soldering_bench import bench_of
from builder.compute.joints.tips import Tip
from builder.model.build import Build, Contact
from builder.model.kinds import Antenna, Connector, Motor, Pack
from builder.model.source.electrical import EdgeName

EDGES: tuple[EdgeName, ...] = ("front", "left", "right", "rear")


@dataclass(frozen=True, eq=False)
class Joint:
    """One heating: all wires at one contact. `cup` joints are a connector's; `neighbours` are pads
    at risk of a bridge.

    A neighbour's gap is in m, or None where nobody says it.
    """

    contact: Contact
    wires: tuple[Join, ...]
    side: str
    edge: str
    cup: bool
    ground: bool
    net: str
    heat: Heat
    neighbours: tuple[tuple[str, float | None], ...]

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

    @property
    def others(self) -> tuple[Contact, ...]:
        """The far ends of its wires."""
        return tuple(j.b if j.a == self.contact else j.a for j in self.wires)


def touches(joint: Joint, piece: str) -> bool:
    """Whether a joint is on a piece or its wires lead there."""
    return any(piece in (c.board, c.part) for c in (joint.contact, *joint.others))


def _comes_with(build: Build, contact: Contact, join: Join) -> bool:
    """A lead that the maker fitted needs no joint at the part it came with."""
    return join.wire is not None and join.wire.lead == "fitted" and join.a == contact


def _place(build: Build, contact: Contact) -> tuple[str, str, tuple[str, ...]]:
    """Side, edge and the row of pads that a contact stands in ('' and () where nobody says)."""
    part = build.parts[contact.part].part
    for side, sides in (("top", part.edges), ("under", part.edges.under)):
        for edge in EDGES:
            row: tuple[str, ...] = getattr(sides, edge)
            if contact.pad in row:
                return side, edge, row
    return "under" if part.pads[contact.pad].side == "under" else "top", "", ()


def _neighbours(
    build: Build, contact: Contact, row: tuple[str, ...]
) -> tuple[tuple[str, float | None], ...]:
    """Pads beside this one along its edge."""
    if contact.pad not in row:
        return ()
    i, given = row.index(contact.pad), build.pad(contact).gap
    gap = given.value if given is not None else None
    return tuple((row[k], gap) for k in (i - 1, i + 1) if 0 <= k < len(row))


def joints(build: Build, nets: Netlist) -> tuple[Joint, ...]:
    """All joints in the order of the file's contacts."""
    out = []
    bench = bench_of(build)
    known: dict[tuple[object, ...], Heat] = {}  # joints that are alike share their figures
    for contact in build.contacts:
        part = build.parts[contact.part].part
        ends = (
            j
            for j in nets.at.get(contact, ())
            if j.by == "wire" and not _comes_with(build, contact, j)
        )
        wires = tuple(ends)
        if not wires or isinstance(part, Motor | Pack | Antenna):
            continue
        side, edge, row = _place(build, contact)
        cup = isinstance(part, Connector)
        alike = likeness(build, contact, wires, cup=cup)
        if alike not in known:
            known[alike] = heat_of(build, bench, contact, wires, cup=cup)
        ground = build.pad(contact).role == "ground"
        near = _neighbours(build, contact, row)
        out.append(
            Joint(
                contact, wires, side, edge, cup, ground, nets.of[contact].name, known[alike], near
            )
        )
    return tuple(out)
