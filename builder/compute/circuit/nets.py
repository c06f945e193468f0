"""Nets: all contacts that wires, plugs and copper inside parts join. Every contact belongs to
exactly one.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from builder.compute.circuit.battery_levels import (
    BatteryLevels,
    BatteryPlug,
    battery_plugs,
    levels_of,
)
from builder.compute.circuit.contacts import Join, joins_of
from builder.model.build import Build, Contact


@dataclass(frozen=True)
class Net:
    """Contacts that conduct to each other, in the order of the file, and the joins that make it so."""

    name: str
    contacts: tuple[Contact, ...]
    joins: tuple[Join, ...]

    @property
    def boards(self) -> tuple[str, ...]:
        """The pieces that it touches, each once."""
        return tuple(dict.fromkeys(c.board for c in self.contacts))

    @property
    def connected(self) -> bool:
        """Whether a wire or a plug takes part: else it is only what a part joins inside."""
        return any(j.by != "inside" for j in self.joins)


@dataclass(frozen=True)
class Netlist:
    """All nets of a build, and the connectors of its battery."""

    nets: tuple[Net, ...]
    joins: tuple[Join, ...]
    plugs: tuple[BatteryPlug, ...]

    @cached_property
    def of(self) -> Mapping[Contact, Net]:
        """The net of each contact."""
        return {c: n for n in self.nets for c in n.contacts}

    @cached_property
    def at(self) -> Mapping[Contact, tuple[Join, ...]]:
        """Wires and plugs that end at each contact."""
        out: dict[Contact, list[Join]] = {}
        for join in self.joins:
            if join.by != "inside":
                out.setdefault(join.a, []).append(join)
                out.setdefault(join.b, []).append(join)
        return {c: tuple(j) for c, j in out.items()}

    @cached_property
    def levels(self) -> BatteryLevels:
        """How the wired connectors of the battery are joined."""
        wired = tuple(p for p in self.plugs if p.plus in self.at or p.minus in self.at)
        return levels_of(wired, {c: n.name for c, n in self.of.items()})

    def joined(self, a: Contact, b: Contact) -> bool:
        """Whether two contacts are on one net."""
        return self.of[a] is self.of[b]


def components(
    contacts: Iterable[Contact], joined: Iterable[tuple[Contact, Contact]]
) -> Mapping[Contact, int]:
    """The number of what conducts to each contact, by union of what is joined: counted in the order
    of the first contact of each.
    """
    own = {c: c for c in contacts}  # one object a contact, so that identity is equality
    parent = dict(own)

    def root(contact: Contact) -> Contact:
        while parent[contact] is not contact:
            parent[contact] = parent[parent[contact]]
            contact = parent[contact]
        return contact

    for one, other in joined:
        a, b = root(own[one]), root(own[other])
        if a is not b:
            parent[b] = a
    numbers: dict[Contact, int] = {}
    return {c: numbers.setdefault(root(c), len(numbers)) for c in own}


def netlist(build: Build) -> Netlist:
    """The nets of a build. A net is named for its first contact in the order of the file."""
    joins = joins_of(build)
    number = components(build.contacts, ((j.a, j.b) for j in joins))
    members: dict[int, list[Contact]] = {}
    for contact in build.contacts:
        members.setdefault(number[contact], []).append(contact)
    made: dict[int, list[Join]] = {n: [] for n in members}
    for join in joins:
        made[number[join.a]].append(join)
    found = ((contacts, made[n]) for n, contacts in members.items())
    nets = tuple(Net(str(on_it[0]), tuple(on_it), tuple(joins)) for on_it, joins in found)
    return Netlist(nets, joins, battery_plugs(build))
