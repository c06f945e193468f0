"""Nets: all contacts that wires, plugs and copper inside parts join. Every contact belongs to
exactly one.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

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
    """All nets of a build."""

    nets: tuple[Net, ...]
    joins: tuple[Join, ...]

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

    def joined(self, a: Contact, b: Contact) -> bool:
        """Whether two contacts are on one net."""
        return self.of[a] is self.of[b]


def netlist(build: Build) -> Netlist:
    """The nets of a build, by union of joins. A net is named for its first contact in the order of
    the file.
    """
    joins = joins_of(build)
    own = {c: c for c in build.contacts}  # one object a contact, so that identity is equality
    parent = dict(own)

    def root(contact: Contact) -> Contact:
        while parent[contact] is not contact:
            parent[contact] = parent[parent[contact]]
            contact = parent[contact]
        return contact

    for join in joins:
        a, b = root(own[join.a]), root(own[join.b])
        if a is not b:
            parent[b] = a
    members: dict[Contact, list[Contact]] = {}
    for contact in build.contacts:
        members.setdefault(root(own[contact]), []).append(contact)
    made: dict[Contact, list[Join]] = {r: [] for r in members}
    for join in joins:
        made[root(own[join.a])].append(join)
    found = ((contacts, made[root]) for root, contacts in members.items())
    nets = tuple(Net(str(on_it[0]), tuple(on_it), tuple(joins)) for on_it, joins in found)
    return Netlist(nets, joins)
