"""Batteries that the wires of the aircraft join in series: the nets between them, and both ends."""

from builder.compute.circuit.contacts import Join
from builder.compute.circuit.nets import Net, Netlist
from builder.model.build import Build, Contact


def said_in_series(build: Build) -> int | None:
    """How many batteries are in series by what the build says of each of its own; None where they
    differ.
    """
    said = {p.use.series for p in build.packs.values()}
    return said.pop() if len(said) == 1 else None


def series_links(build: Build, nets: Netlist) -> frozenset[str]:
    """Names of the nets that join one battery's minus to the next one's plus, where the build says
    that so many are in series.
    """
    said, levels = {p.use.series for p in build.packs.values()} - {1}, nets.levels
    if not said or levels.rings or levels.steps not in said:
        return frozenset()
    return frozenset(levels.links)


def inner_links(nets: Netlist) -> tuple[Net, ...]:
    """The nets between one battery and the next, of several connectors wired in series; none where
    one connector has both poles.
    """
    levels = nets.levels
    return () if levels.rings else tuple(n for n in nets.nets if n.name in levels.links)


def link_joins(nets: Netlist) -> tuple[Join, ...]:
    """Wires and plugs of the nets between one battery and the next."""
    links = (n for n in nets.nets if n.name in nets.levels.links)
    return tuple(j for net in links for j in net.joins if j.by != "inside")


def ends_of_series(nets: Netlist) -> tuple[Contact, Contact] | None:
    """Plus and minus of all batteries together, where several connectors are wired in series: the
    plus of the highest and the minus of the lowest. None where one connector has both.
    """
    levels = nets.levels
    if levels.steps < 2 or levels.rings:
        return None
    below = levels.below
    highest = max(levels.plugs, key=lambda p: below[nets.of[p.plus].name])
    lowest = min(levels.plugs, key=lambda p: below[nets.of[p.minus].name])
    return highest.plus, lowest.minus
