"""What wiring rules share: the contacts of a net by role, and where a net can be mended."""

from collections.abc import Iterable, Iterator

from builder.compute.nets import Net
from builder.diagnostics.where import Where
from builder.model.build import Contact
from builder.model.electrical import Pad
from builder.rules.rule import Case


def with_roles(case: Case, net: Net, *roles: str) -> list[Contact]:
    """The contacts of a net whose pad has one of these roles."""
    return [c for c in net.contacts if case.build.pad(c).role in roles]


def joined_nets(case: Case) -> Iterator[Net]:
    """Nets in which a wire or a plug takes part."""
    return (n for n in case.results.netlist.nets if n.connected)


def where_joined(case: Case, contacts: Iterable[Contact], net: Net) -> Where:
    """The wire or plug that brings these contacts onto the net: the last of those that touch them."""
    wanted = set(contacts)
    touching = [j for j in net.joins if j.by != "inside" and (j.a in wanted or j.b in wanted)]
    joins = touching or [j for j in net.joins if j.by != "inside"]
    return joins[-1].where if joins else case.build.parts[next(iter(wanted)).part].where


def named(contacts: Iterable[Contact]) -> str:
    """`camera.5V, controller.5V2`."""
    return ", ".join(str(c) for c in contacts)


def pads(case: Case, contacts: Iterable[Contact]) -> list[tuple[Contact, Pad]]:
    """Contacts with their pads."""
    return [(c, case.build.pad(c)) for c in contacts]


def is_wired(case: Case, contact: Contact) -> bool:
    """Whether a wire or a plug ends at the contact."""
    return contact in case.results.netlist.at


def boards_apart(contacts: Iterable[Contact]) -> bool:
    """Whether the contacts are on more than one piece."""
    return len({c.board for c in contacts}) > 1
