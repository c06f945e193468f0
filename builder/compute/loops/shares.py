"""Which share of each current a wire or a contact carries where a current has several ways.

Wires, contacts and batteries side by side are a net of resistors; the shares come from nodal
analysis, one unit current at a time, so that they hold for whatever the loads take.
"""

from collections.abc import Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from builder.compute.circuit.contacts import Join, cable_of
from builder.compute.circuit.nets import Net, components
from builder.compute.formulas.electric.conductor import (
    resistance_per_length,
    stranded_resistance,
    wire_resistance,
)
from builder.compute.loops.nodal import Resistor, branch_currents
from builder.compute.weight.wire_mass import copper_area
from builder.load.assumed import assumed
from builder.model.build import Build, Contact, FittedAs
from builder.model.kinds import Cable
from builder.model.values.measures import Gauge

WARM = assumed("wires/reckoned-at")  # K
_STRANDS = assumed("wires/strands")
_CONTACT = assumed("wires/small-contact")
_LEAST = assumed("wires/carried-least")


@dataclass(frozen=True)
class Battery:
    """A battery between its minus and its plus on the aircraft, with its resistance (Ω)."""

    minus: Contact
    plus: Contact
    ohms: float


@dataclass(frozen=True)
class CurrentWay:
    """A current's way through a net: where it enters and where it leaves."""

    enters: Contact
    leaves: Contact


@dataclass(frozen=True)
class Shares:
    """For each join the share of each way's current (1 for all of it), positive from its a to its
    b; and what is not known where they cannot be worked out.
    """

    of: Mapping[Join, tuple[float, ...]]
    missing: tuple[str, ...] = ()


def copper_ohms(gauge: Gauge, length: float) -> float:
    """Resistance of a stranded wire, warm (Ω)."""
    each = stranded_resistance(resistance_per_length(copper_area(gauge), WARM), _STRANDS)
    return wire_resistance(each, length)


def cable_by(build: Build, join: Join) -> FittedAs[Cable] | None:
    """The cable on the shelf by which a plug joins two contacts, or None."""
    plugged = (p for p in build.plugs if p.where == join.where)
    return next((c for p in plugged if (c := cable_of(build, p)) is not None), None)


def _strand(build: Build, join: Join) -> float:
    """The strand of a plugged cable (Ω), as far as the cable on the shelf says it."""
    cable = cable_by(build, join)
    if cable is None or cable.part.gauge is None or cable.part.length is None:
        return 0.0
    return copper_ohms(cable.part.gauge, cable.part.length.value)


def join_ohms(build: Build, join: Join) -> float | None:
    """Resistance of a wire or of a plug's way from contact to contact (Ω); None where gauge or
    length is not told.
    """
    if join.wire is None:
        return 2.0 * _CONTACT + _strand(build, join)
    length = join.wire.trim_to or join.wire.length
    if join.wire.gauge is None or length is None or length.value <= 0.0:
        return None
    return copper_ohms(join.wire.gauge, length.value)


def _joins(nets: Iterable[Net]) -> tuple[list[Contact], list[Join], list[Join]]:
    """All contacts of some nets, what copper inside parts joins, and the rest."""
    contacts = [c for net in nets for c in net.contacts]
    joins = [j for net in nets for j in net.joins]
    inside = [j for j in joins if j.by == "inside"]
    return contacts, inside, [j for j in joins if j.by != "inside"]


def shares_of(
    build: Build, nets: Sequence[Net], ways: Sequence[CurrentWay], batteries: Sequence[Battery] = ()
) -> Shares:
    """What each wire and contact of some nets carries of each way's current."""
    contacts, inside, joins = _joins(nets)
    node = components(contacts, ((j.a, j.b) for j in inside))
    ohms = {j: join_ohms(build, j) for j in joins}
    resistors = [Resistor(node[j.a], node[j.b], ohms[j] or _CONTACT) for j in joins]
    resistors += [Resistor(node[b.minus], node[b.plus], b.ohms) for b in batteries]
    untold = (i for i, j in enumerate(joins) if ohms[j] is None)
    in_rings = [joins[i] for i in untold if _has_another_way(resistors, i)]
    if in_rings:
        return Shares({}, tuple(f"gauge and length of {j.a} to {j.b}" for j in in_rings))
    cases = [_unit(node[w.enters], node[w.leaves]) for w in ways]
    found = branch_currents(resistors, cases)
    of = {j: tuple(_plain(case[i]) for case in found) for i, j in enumerate(joins)}
    return Shares(of)


def _has_another_way(resistors: Sequence[Resistor], but: int) -> bool:
    """Whether a current could go round one of some resistors: what has no other way carries all,
    whatever its resistance.
    """
    ends = ((r.a, r.b) for i, r in enumerate(resistors) if i != but)
    near: dict[Hashable, set[Hashable]] = {}
    for a, b in ends:
        near.setdefault(a, set()).add(b)
        near.setdefault(b, set()).add(a)
    goal, seen, stack = resistors[but].b, {resistors[but].a}, [resistors[but].a]
    while stack:
        new = near.get(stack.pop(), set()) - seen
        seen |= new
        stack += new
    return goal in seen


def _unit(enters: Hashable, leaves: Hashable) -> dict[Hashable, float]:
    """One ampere in and out; none where both are one piece of copper."""
    return {enters: 1.0, leaves: -1.0} if enters != leaves else {}


def _plain(share: float) -> float:
    """A share without what rounding left of nothing."""
    return share if abs(share) >= _LEAST else 0.0
