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

from builder.compute.circuit.feeds import PACK, Source, sources_by_net
from builder.compute.circuit.nets import Net, Netlist
from builder.compute.circuit.rails import PowerPlan, Supplied
from builder.compute.figures.figure import (
    Figure,
    MaybeFigure,
    Unknown,
    apply,
    constant,
    formula,
)
from builder.compute.figures.sums import difference
from builder.compute.flight.flight import FlightFigures
from builder.compute.formulas.electric.electronics import shared_current
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
    wires_beside,
)
from builder.compute.power.return_path import Back, ways_back
from builder.model.build import Build, Contact, WireRun
from builder.model.kinds import Connector, SpeedController


@dataclass(frozen=True, eq=False)
class PowerPath:
    """Supply wires and ways back in the order of the file, contacts of plugs that carry either, the
    corners of each pack.
    """

    wires: tuple[SupplyWire, ...]
    returns: tuple[SupplyWire, ...]
    plugs: tuple[PlugLoad, ...]
    corners: tuple[PackCorner, ...]


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


def _motor_current(
    build: Build, flown: FlightFigures, power: PowerPlan, controllers: int
) -> tuple[MaybeFigure, MaybeFigure]:
    """Motor current on one speed controller, mean and at full throttle, on the pack that gives
    most.
    """
    out: list[MaybeFigure] = []
    for name, label in (
        ("styled_current", "Motors, mean"),
        ("peak_current", "Motors at full throttle"),
    ):
        of_packs: list[MaybeFigure] = [getattr(p, name) for p in flown.packs.values()]
        known = [p for p in of_packs if isinstance(p, Figure)]
        key = f"{build.name}/path/motors-{name.split('_')[0]}"
        if not known or len(known) < len(of_packs):
            missing = next((p for p in of_packs if isinstance(p, Unknown)), None)
            out.append(
                Unknown(key, label, missing.missing if missing is not None else ("a battery",))
            )
            continue
        largest = max(known, key=lambda f: f.value)
        alone = difference(key, label, "A", largest, power.standing_current)
        count = constant(
            f"{build.name}/path/controllers", "Speed controllers", float(controllers), "1"
        )
        share = apply(
            f"{key}-each", f"{label}, one speed controller", formula(shared_current), alone, count
        )
        out.append(alone if controllers == 1 else share)
    return out[0], out[1]


def _takers(build: Build, flown: FlightFigures, power: PowerPlan) -> dict[Contact, Taken]:
    """What hangs on each contact that draws: its own current, that of its rails, and that of its
    motors.
    """
    controllers = sum(f.count for f in build.of_kind(SpeedController))
    steady, short = (
        _motor_current(build, flown, power, max(1, controllers))
        if flown.drive.rotors
        else (None, None)
    )
    out: dict[Contact, Taken] = {}
    rows: tuple[Supplied, ...] = (*power.on_pack, *(s for r in power.rails for s in r.supplied))
    for s in rows:
        own = [r.input_current for r in power.rails if r.source.part == s.load.part and r.supplied]
        drives = (
            isinstance(build.parts[s.load.pad.part].part, SpeedController) and steady is not None
        )
        turning: tuple[MaybeFigure, ...] = (steady,) if drives and steady is not None else ()
        pushing: tuple[MaybeFigure, ...] = (short,) if drives and short is not None else ()
        out[s.load.pad] = Taken((s.typical, *own, *turning), (s.peak, *own, *pushing), drives)
    return out


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
            )
        )
    return tuple(out)


def _ways_out(build: Build, nets: Netlist, takers: dict[Contact, Taken]) -> Iterator[Back]:
    """Every join of a supply that something hangs on, with what it carries."""
    by_net = sources_by_net(build, nets)
    for net in nets.nets:
        given = by_net.get(net.name, ())
        starts = _starts(build, net, given[0]) if given else ()
        for join in joins_between(net) if starts else ():
            group = wires_beside(build, net, join)
            fed = reach(net, starts, group)
            if (join.a in fed) == (join.b in fed):
                continue  # a ring, or a piece that nothing feeds: the rules of wiring speak of that
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
            yield Back(join, given[0], steady, short, many, any(t.motors for t in beyond))


def power_path(build: Build, nets: Netlist, power: PowerPlan, flown: FlightFigures) -> PowerPath:
    """Currents and drops of every supply wire of a build, and of every way back."""
    takers = _takers(build, flown, power)
    runs = {(r.start, r.end, id(r.wire)): (i, r) for i, r in enumerate(build.wires)}
    plugs: list[PlugLoad] = []

    def wires_of(found: Iterable[Back]) -> list[_Wire]:
        out = []
        for way in found:
            join = way.join
            if join.wire is None:
                plugs.append(PlugLoad(join, way.steady, way.short))
                continue
            number, run = runs[join.a, join.b, id(join.wire)]
            own = half(build, run, way.short, f"{build.name}/path/{join.a}-{join.b}")
            out.append(_Wire(number, run, way.source, way.steady, own, way.beside, way.motors))
        return out

    supplied = (*power.on_pack, *(s for r in power.rails for s in r.supplied))
    ways = wires_of(_ways_out(build, nets, takers))
    backs = wires_of(ways_back(build, nets, supplied, takers))
    wires, returns = _paired(power, ways, backs), _paired(power, backs, ways)
    battery = [w.resistance for w in wires if w.motors]
    leads = (
        battery[0]
        if battery
        else Unknown(f"{build.name}/path/leads", "Battery leads", ("the battery leads",))
    )
    return PowerPath(wires, returns, tuple(plugs), corners(build, power, flown, leads))
