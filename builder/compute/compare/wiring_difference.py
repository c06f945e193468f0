"""Which wires and plugged contacts two builds have alike, otherwise, or alone: by the pads that
they join.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from builder.compute.circuit.contacts import Join
from builder.compute.circuit.nets import Netlist


@dataclass(frozen=True)
class JoinChange:
    """Two pads that a wire or plug joins in at least one build. `nets` are their nets in each, ''
    where not joined.
    """

    ends: tuple[str, str]
    nets: tuple[str, str]
    first: Join | None
    second: Join | None

    @property
    def differs(self) -> bool:
        """Whether one lacks the join, or makes it otherwise: by another wire, or by a plug."""
        if self.first is None or self.second is None:
            return True
        return made_of(self.first) != made_of(self.second)

    @property
    def words(self) -> str:
        """Both pads and the net, in words."""
        by = (
            ", by plug"
            if "plug" in {j.by for j in (self.first, self.second) if j is not None}
            else ""
        )
        start, end = self.ends
        net = self.nets[0] or self.nets[1]
        return f"{start} to {end}{by}, on the net of {net}"


def made_of(join: Join) -> tuple[object, ...]:
    """What a join is, so that the same wire written otherwise is the same."""
    wire = join.wire
    if wire is None:
        return (join.by,)
    lengths = tuple(q.value if q is not None else None for q in (wire.length, wire.trim_to))
    return (
        join.by,
        wire.colour,
        wire.gauge.label if wire.gauge is not None else None,
        lengths,
        wire.lead,
    )


def joins_by_ends(nets: Netlist) -> Mapping[tuple[str, str], tuple[str, Join]]:
    """Every wire and plugged contact by its two pads: the net, and the join."""
    out: dict[tuple[str, str], tuple[str, Join]] = {}
    for join in nets.joins:
        if join.by != "inside":
            low, high = sorted((str(join.a), str(join.b)))
            out[low, high] = nets.of[join.a].name, join
    return out


def wiring_changes(first: Netlist, second: Netlist) -> tuple[JoinChange, ...]:
    """Every join of both, in the order of the first build's file, then those that only the second
    has.
    """
    a, b = joins_by_ends(first), joins_by_ends(second)
    nothing = ("", None)
    out = []
    for ends in dict.fromkeys((*a, *b)):
        (net_a, join_a), (net_b, join_b) = a.get(ends, nothing), b.get(ends, nothing)
        out.append(JoinChange(ends, (net_a, net_b), join_a, join_b))
    return tuple(out)
