"""What wires and contacts carry where a current has several ways: wires side by side that are not
alike, rings of grounds, and several batteries.

Cutting one wire in thought says nothing there, for the current takes the other way. The shares come
from nodal analysis (compute/loops/shares.py); each load's current times its share is a figure.
"""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from math import fsum

from builder.compute.circuit.contacts import Join
from builder.compute.circuit.feeds import Source
from builder.compute.circuit.nets import Net
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, apply, constant
from builder.compute.figures.sloped_formula import formula
from builder.compute.formulas.electric.circuits import part_of_current
from builder.compute.loops.shares import Battery, CurrentWay, Shares, shares_of
from builder.compute.power.path_wires import Taken, shared
from builder.model.build import Build, Contact


@dataclass(frozen=True, eq=False)
class Back:
    """A join by which current goes out or returns: what it carries, of which source, with how many
    it shares, its end to which the current goes (None where that is not known), and the largest
    share of one load's motors that it carries.
    """

    join: Join
    source: Source
    steady: MaybeFigure
    short: MaybeFigure
    beside: int
    motors: bool
    towards: Contact | None = None
    share: float = 1.0


@dataclass(frozen=True, eq=False)
class RingFlow:
    """What one load takes, and its way through the nets."""

    load: str
    source: Source
    taken: Taken
    way: CurrentWay


def _scaled(figures: Sequence[MaybeFigure], share: float, key: str, name: str) -> list[MaybeFigure]:
    """Currents of one load times the share of them that a join carries."""
    if abs(share) == 1.0:
        return list(figures)
    part = constant(f"{key}/share", f"Share through {name}", min(abs(share), 1.0), "1")
    how = formula(part_of_current)
    return [apply(f"{key}/{i}", f.label, how, f, part) for i, f in enumerate(figures)]


def _size(flows: Sequence[tuple[RingFlow, float]]) -> float:
    found = ((f, share) for flow, share in flows for f in flow.taken.short)
    return fsum(f.value * abs(share) for f, share in found if isinstance(f, Figure))


def _untold(flows: Sequence[tuple[RingFlow, float]]) -> bool:
    return any(isinstance(f, Unknown) for flow, _ in flows for f in flow.taken.short)


def _stronger(flows: Sequence[RingFlow], shares: tuple[float, ...]) -> list[tuple[RingFlow, float]]:
    """The flows of the stronger direction: of two opposite ones the other may be off. One of which
    somebody does not know the current may be the stronger.
    """
    pairs = [(f, s) for f, s in zip(flows, shares, strict=True) if s]
    there, back = ([p for p in pairs if (p[1] > 0.0) == way] for way in (True, False))
    return max(there, back, key=lambda found: (_untold(found), _size(found), len(found)))


def _one(join: Join, flows: Sequence[RingFlow], shares: Shares, name: str) -> Back | None:
    """What one join carries; None for one that carries nothing."""
    key, label = f"{name}/path/{join.a}-{join.b}", f"{join.a} to {join.b}"
    if shares.missing:
        lacks = Unknown(f"{key}/steady", f"Current of {label}", shares.missing)
        briefly = Unknown(f"{key}/short", f"Peak current of {label}", shares.missing)
        motors = any(f.taken.motors for f in flows)
        return Back(join, flows[0].source, lacks, briefly, 1, motors)
    carried = _stronger(flows, shares.of[join])
    if not carried:
        return None
    steady: list[MaybeFigure] = []
    short: list[MaybeFigure] = []
    for flow, share in carried:
        steady += _scaled(flow.taken.steady, share, f"{key}/steady/{flow.load}", label)
        short += _scaled(flow.taken.short, share, f"{key}/short/{flow.load}", label)
    motors = any(flow.taken.motors for flow, _ in carried)
    lasting = shared(f"{key}/steady", f"Current of {label}", steady, 1)
    peak = shared(f"{key}/short", f"Peak current of {label}", short, 1)
    towards = join.b if carried[0][1] > 0.0 else join.a
    part = max((abs(share) for flow, share in carried if flow.taken.motors), default=1.0)
    return Back(join, carried[0][0].source, lasting, peak, 1, motors, towards, min(part, 1.0))


def ring_ways(
    build: Build,
    nets: Sequence[Net],
    wanted: Collection[Join],
    flows: Sequence[RingFlow],
    batteries: Sequence[Battery] = (),
) -> Iterator[Back]:
    """What each of some joins carries, of all ways that the currents have through these nets."""
    if not flows or not wanted:
        return
    shares = shares_of(build, nets, [f.way for f in flows], batteries)
    for join in wanted:
        made = _one(join, flows, shares, build.name)
        if made is not None:
            yield made
