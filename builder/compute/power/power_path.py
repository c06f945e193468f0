"""What each supply wire carries and loses, and the volts that are left at the worst corners of each
pack.

Every wire of a supply is taken out of its net in thought: what is then cut off from the source
hangs on it, and the sum of those loads is its current. Wires that run side by side between the same
two pieces share it. What flows back through the grounds is in return_path.py; a wire and its way
back between the same two pieces lose their volts together.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import fsum

from builder.compute.circuit.contacts import Join
from builder.compute.circuit.feeds import PACK, Source, sources_by_net
from builder.compute.circuit.nets import Net, Netlist
from builder.compute.circuit.rails import PowerPlan
from builder.compute.figures.figure import Figure, MaybeFigure
from builder.compute.flight.flight import FlightFigures
from builder.compute.loops.shares import CurrentWay
from builder.compute.power.battery_ways import battery_nets, battery_ways
from builder.compute.power.lead_resistance import battery_lead_ohms, leads_as_they_are
from builder.compute.power.pack_corners import PackCorner, corners
from builder.compute.power.path_wires import (
    Half,
    PlugLoad,
    SupplyWire,
    Taken,
    half,
    joins_between,
    pair,
    reach,
    shared,
    shared_equally,
    wires_beside,
)
from builder.compute.power.return_path import ways_back
from builder.compute.power.ring_ways import Back, RingFlow, ring_ways
from builder.compute.power.short_circuit import ShortCircuit, worst_short
from builder.compute.power.takers import takers_of
from builder.model.build import Build, Contact, WireRun
from builder.model.kinds import Connector


@dataclass(frozen=True, eq=False)
class PowerPath:
    """Supply wires and ways back in the order of the file, contacts of plugs that carry either, the
    corners of each pack, and what the strongest drives into a dead short.
    """

    wires: tuple[SupplyWire, ...]
    returns: tuple[SupplyWire, ...]
    plugs: tuple[PlugLoad, ...]
    corners: tuple[PackCorner, ...]
    short: ShortCircuit | None


def _starts(build: Build, net: Net, source: Source) -> tuple[Contact, ...]:
    """Where the current of a net comes from: the pack's connectors, or the pads of the rail."""
    plus = [
        c
        for c in net.contacts
        if isinstance(build.parts[c.part].part, Connector) and build.pad(c).role != "ground"
    ]
    if source == PACK:
        given = [
            c
            for c in net.contacts
            if build.pad(c).role == "supply" and build.pad(c).rail is not None
        ]
        return tuple(plus or given)
    return tuple(
        c for c in net.contacts if c.board == source.part and build.pad(c).rail == source.name
    )


@dataclass(frozen=True, eq=False)
class _Wire:
    """A wire of a supply or a way back, before its fellow is found."""

    number: int
    run: WireRun
    source: Source
    steady: MaybeFigure
    half: Half
    beside: int
    motors: bool
    towards: Contact | None
    share: float

    @property
    def ends(self) -> frozenset[str]:
        """The two pieces that it joins."""
        return frozenset({self.run.start.board, self.run.end.board})


def _worst(halves: list[Half]) -> Half | None:
    """The one of several wires side by side that loses most; one of which that is not known before
    all.
    """
    return max(
        halves,
        key=lambda h: h.drop.value if isinstance(h.drop, Figure) else float("inf"),
        default=None,
    )


def _paired(power: PowerPlan, wires: list[_Wire], others: list[_Wire]) -> tuple[SupplyWire, ...]:
    """Each wire with what it loses out and back, in the order of the file."""
    nominal = fsum(p.nominal for p in power.packs) / len(power.packs) if power.packs else None
    out = []
    for wire in sorted(wires, key=lambda w: w.number):
        fellow = _worst([o.half for o in others if o.ends == wire.ends and o.source == wire.source])
        ohms, lost = pair(wire.half, fellow)
        rail = next((r for r in power.rails if r.source == wire.source), None)
        volts = rail.volts if rail is not None else nominal
        short, paired = wire.half.short, fellow is not None
        out.append(
            SupplyWire(
                wire.run,
                wire.source,
                volts,
                wire.steady,
                short,
                ohms,
                lost,
                wire.beside,
                wire.motors,
                paired,
                wire.towards,
                wire.share,
            )
        )
    return tuple(out)


def _ring_out(
    starts: tuple[Contact, ...], net: Net, source: Source, takers: dict[Contact, Taken]
) -> list[RingFlow]:
    """The ways of a net's loads from its source through its rings."""
    loads = [c for c in net.contacts if c in takers and c.board != source.part]
    return [RingFlow(c.board, source, takers[c], CurrentWay(starts[0], c)) for c in loads]


def _ways_out(
    build: Build, nets: Netlist, takers: dict[Contact, Taken], but: frozenset[str]
) -> Iterator[Back]:
    """Every join of a supply that something hangs on, with what it carries, without the nets of
    these names.
    """
    by_net = sources_by_net(build, nets)
    for net in (n for n in nets.nets if n.name not in but):
        in_rings: list[Join] = []
        given = by_net.get(net.name, ())
        starts = _starts(build, net, given[0]) if given else ()
        for join in joins_between(net) if starts else ():
            group = wires_beside(build, net, join)
            fed = reach(net, starts, group)
            if (join.a in fed and join.b in fed) or not shared_equally(group):
                in_rings.append(join)
                continue
            if join.a not in fed and join.b not in fed:
                continue  # a piece that nothing feeds: the rules of wiring speak of that
            beyond = [takers[c] for c in net.contacts if c not in fed and c in takers]
            if not beyond:
                continue
            many, key = len(group), f"{build.name}/path/{join.a}-{join.b}"
            name = f"{join.a} to {join.b}"
            steady = shared(
                f"{key}/steady", f"Current of {name}", [f for t in beyond for f in t.steady], many
            )
            short = shared(
                f"{key}/short",
                f"Peak current of {name}",
                [f for t in beyond for f in t.short],
                many,
            )
            towards = join.b if join.a in fed else join.a
            motors = any(t.motors for t in beyond)
            share = 1.0 / many
            yield Back(join, given[0], steady, short, many, motors, towards, share)
        if in_rings:
            flows = _ring_out(starts, net, given[0], takers)
            yield from ring_ways(build, [net], in_rings, flows)


def power_path(build: Build, nets: Netlist, power: PowerPlan, flown: FlightFigures) -> PowerPath:
    """Currents and drops of every supply wire of a build, and of every way back."""
    takers = takers_of(build, flown, power)
    runs = {(r.start, r.end, id(r.wire)): (i, r) for i, r in enumerate(build.wires)}
    plugs: list[PlugLoad] = []

    def wires_of(found: Iterable[Back]) -> list[_Wire]:
        out = []
        for way in found:
            join = way.join
            if join.wire is None:
                plugs.append(PlugLoad(join, way.steady, way.short, way.motors, way.towards))
                continue
            number, run = runs[join.a, join.b, id(join.wire)]
            own = half(build, run, way.short, f"{build.name}/path/{join.a}-{join.b}")
            more = way.beside, way.motors, way.towards, way.share
            out.append(_Wire(number, run, way.source, way.steady, own, *more))
        return out

    supplied = (*power.on_pack, *(s for r in power.rails for s in r.supplied))
    several = battery_nets(nets, power)
    leads_of = battery_ways(build, several, supplied, takers)
    out = (*_ways_out(build, nets, takers, several.names), *leads_of.out)
    ways = wires_of(out)
    backs = wires_of((*ways_back(build, nets, supplied, takers, several.names), *leads_of.back))
    wires, returns = _paired(power, ways, backs), _paired(power, backs, ways)
    leads = battery_lead_ohms(build, wires, several, leads_of)
    turning = [(w.share, w.half) for w in (*ways, *backs) if w.motors]
    as_they_are = leads if several.batteries else leads_as_they_are(build, turning, leads)
    short = worst_short(build, flown, as_they_are, (*wires, *returns))
    return PowerPath(wires, returns, tuple(plugs), corners(build, power, flown, leads), short)
