"""What each supply wire carries and loses, and the volts that are left at the worst corners of each pack.

Every wire of a supply is taken out of its net in thought: what is then cut off from the source hangs on it, and the sum
of those loads is its current. Wires that run side by side between the same two pieces share it.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from builder.compute.contacts import Join
from builder.compute.feeds import PACK, Source, sources_by_net
from builder.compute.figure import Figure, Known, Unknown, apply, constant, difference, formula, leaf, total
from builder.compute.flight import Flight
from builder.compute.formulas.conductor import resistance_per_length, stranded_resistance
from builder.compute.formulas.electronics import drop, shared_current, wire_pair_resistance
from builder.compute.nets import Net, Netlist
from builder.compute.pack_corners import Corner, corners
from builder.compute.rails import Power, Supplied
from builder.compute.wire_mass import copper_area
from builder.model.build import Build, Contact, WireRun
from builder.model.kinds import Connector, SpeedController

WARM = 333.15  # K: wires are reckoned at 60 °C
STRANDS = 0.05  # over solid copper; up to 0.11 in FAA AC 43.13-1B, table 11-9


@dataclass(frozen=True, eq=False)
class SupplyWire:
    """A wire of a supply. `steady` is its current in the builder's style, `short` at full throttle or with all peaks.

    `resistance` is out and back (the return taken as long and as thick), `lost` what `short` loses there, in V;
    `volts` are the source's, `beside` how many wires run side by side.
    """

    run: WireRun
    source: Source
    volts: float | None
    steady: Known
    short: Known
    resistance: Known
    lost: Known
    beside: int
    motors: bool

    @property
    def lost_share(self) -> float | None:
        """Volts lost as a share of the source's, or None."""
        return self.lost.value / self.volts if isinstance(self.lost, Figure) and self.volts else None


@dataclass(frozen=True, eq=False)
class PlugLoad:
    """A contact of a plug that carries a supply, with its steady current."""

    join: Join
    steady: Known
    short: Known


@dataclass(frozen=True, eq=False)
class PowerPath:
    """Supply wires in the order of the file, contacts of plugs that carry a supply, and the corners of each pack."""

    wires: tuple[SupplyWire, ...]
    plugs: tuple[PlugLoad, ...]
    corners: tuple[Corner, ...]


@dataclass(frozen=True, eq=False)
class _Taken:
    """What one contact takes: steady and short, each figure by its label."""

    steady: tuple[Known, ...]
    short: tuple[Known, ...]
    motors: bool = False


def _reach(net: Net, starts: Iterable[Contact], without: frozenset[Join]) -> frozenset[Contact]:
    """Contacts of a net that conduct to the starts with some joins taken out."""
    near: dict[Contact, list[Contact]] = {}
    for join in net.joins:
        if join not in without:
            near.setdefault(join.a, []).append(join.b)
            near.setdefault(join.b, []).append(join.a)
    seen = set(starts)
    stack = list(seen)
    while stack:
        for other in near.get(stack.pop(), ()):
            if other not in seen:
                seen.add(other)
                stack.append(other)
    return frozenset(seen)


def _starts(build: Build, net: Net, source: Source) -> tuple[Contact, ...]:
    """Where the current of a net comes from: the pack's connectors, or the pads of the rail."""
    plus = [
        c for c in net.contacts if isinstance(build.parts[c.part].part, Connector) and build.pad(c).role != "ground"
    ]
    if source == PACK:
        given = [c for c in net.contacts if build.pad(c).role == "supply" and build.pad(c).rail is not None]
        return tuple(plus or given)
    return tuple(c for c in net.contacts if c.board == source.part and build.pad(c).rail == source.name)


def _motor_current(build: Build, flown: Flight, power: Power, controllers: int) -> tuple[Known, Known]:
    """Motor current on one speed controller, mean and at full throttle, on the pack that gives most."""
    out: list[Known] = []
    for name, label in (("styled_current", "Motors, mean"), ("peak_current", "Motors at full throttle")):
        of_packs: list[Known] = [getattr(p, name) for p in flown.packs.values()]
        known = [p for p in of_packs if isinstance(p, Figure)]
        key = f"{build.name}/path/motors-{name.split('_')[0]}"
        if not known or len(known) < len(of_packs):
            missing = next((p for p in of_packs if isinstance(p, Unknown)), None)
            out.append(Unknown(key, label, missing.missing if missing is not None else ("a pack",)))
            continue
        largest = max(known, key=lambda f: f.value)
        alone = difference(key, label, "A", largest, power.standing_current)
        count = constant(f"{build.name}/path/controllers", "Speed controllers", float(controllers), "1")
        share = apply(f"{key}-each", f"{label}, one speed controller", formula(shared_current), alone, count)
        out.append(alone if controllers == 1 else share)
    return out[0], out[1]


def _takers(build: Build, flown: Flight, power: Power) -> dict[Contact, _Taken]:
    """What hangs on each contact that draws: its own current, that of its rails, and that of its motors."""
    controllers = sum(f.count for f in build.of_kind(SpeedController))
    steady, short = _motor_current(build, flown, power, max(1, controllers)) if flown.drive.rotors else (None, None)
    out: dict[Contact, _Taken] = {}
    rows: tuple[Supplied, ...] = (*power.on_pack, *(s for r in power.rails for s in r.supplied))
    for s in rows:
        own = [r.input_current for r in power.rails if r.source.part == s.load.part and r.supplied]
        drives = isinstance(build.parts[s.load.pad.part].part, SpeedController) and steady is not None
        turning: tuple[Known, ...] = (steady,) if drives and steady is not None else ()
        pushing: tuple[Known, ...] = (short,) if drives and short is not None else ()
        out[s.load.pad] = _Taken((s.typical, *own, *turning), (s.peak, *own, *pushing), drives)
    return out


def _beside(build: Build, net: Net, join: Join) -> frozenset[Join]:
    """The join and those that run side by side with it, between the same two pieces."""
    ends = {join.a.board, join.b.board}
    return frozenset(j for j in net.joins if j.by == join.by and {j.a.board, j.b.board} == ends)


def _sum(key: str, label: str, parts: list[Known], beside: int) -> Known:
    missing = tuple(dict.fromkeys(m for p in parts if isinstance(p, Unknown) for m in p.missing))
    if missing:
        return Unknown(key, label, missing)
    whole = total(f"{key}-all" if beside > 1 else key, label, "A", parts)
    if beside == 1:
        return whole
    many = constant(f"{key}-beside", "Wires side by side", float(beside), "1")
    return apply(key, label, formula(shared_current), whole, many)


def _resistance(build: Build, run: WireRun, key: str) -> Known:
    wire = run.wire
    length = wire.trim_to or wire.length
    label = f"Resistance of {run.start} to {run.end} and back"
    if wire.gauge is None or length is None:
        return Unknown(key, label, (f"gauge and length of {run.start} to {run.end}",))
    each = stranded_resistance(resistance_per_length(copper_area(wire.gauge), WARM), STRANDS)
    per_length = leaf(
        f"wire/{wire.gauge.label.replace(' ', '-')}/resistance",
        f"Resistance of {wire.gauge.label}, stranded, at 60 °C",
        each,
        "Ω/m",
        own=STRANDS * each,
        basis="estimate",
        note="ASTM B258 and NBS Handbook 100, with 5 % for the strands",
    )
    long = leaf(
        f"{key}/length",
        f"Length of {run.start} to {run.end}",
        length.value,
        "m",
        basis="estimate",
        where=run.where.at("trim_to" if wire.trim_to is not None else "length"),
    )
    return apply(key, label, formula(wire_pair_resistance), per_length, long)


def _joins(net: Net) -> list[Join]:
    return [j for j in net.joins if j.by != "inside"]


def power_path(build: Build, nets: Netlist, power: Power, flown: Flight) -> PowerPath:
    """Currents and drops of every supply wire of a build."""
    takers = _takers(build, flown, power)
    runs = {(r.start, r.end, id(r.wire)): (i, r) for i, r in enumerate(build.wires)}
    nominal = sum(p.nominal for p in power.packs) / len(power.packs) if power.packs else None
    wires: list[tuple[int, SupplyWire]] = []
    plugs: list[PlugLoad] = []
    by_net = sources_by_net(build, nets)
    for net in nets.nets:
        given = by_net.get(net.name, ())
        starts = _starts(build, net, given[0]) if given else ()
        for join in _joins(net) if starts else ():
            group = _beside(build, net, join)
            fed = _reach(net, starts, group)
            if (join.a in fed) == (join.b in fed):
                continue  # a ring, or a piece that nothing feeds: the rules of wiring speak of that
            beyond = [takers[c] for c in net.contacts if c not in fed and c in takers]
            if not beyond:
                continue
            many, key = len(group), f"{build.name}/path/{join.a}-{join.b}"
            name = f"{join.a} to {join.b}"
            steady = _sum(f"{key}/steady", f"Current of {name}", [f for t in beyond for f in t.steady], many)
            short = _sum(f"{key}/short", f"Peak current of {name}", [f for t in beyond for f in t.short], many)
            if join.wire is None:
                plugs.append(PlugLoad(join, steady, short))
                continue
            number, run = runs[join.a, join.b, id(join.wire)]
            ohms = _resistance(build, run, f"{key}/resistance")
            lost = apply(f"{key}/lost", f"Volts lost in {name} and back", formula(drop), short, ohms)
            rail = next((r for r in power.rails if r.source == given[0]), None)
            volts = rail.volts if rail is not None else nominal
            motors = any(t.motors for t in beyond)
            wires.append((number, SupplyWire(run, given[0], volts, steady, short, ohms, lost, many, motors)))
    wires.sort(key=lambda w: w[0])
    battery = [w.resistance for _, w in wires if w.motors]
    leads = battery[0] if battery else Unknown(f"{build.name}/path/leads", "Battery leads", ("the battery leads",))
    return PowerPath(tuple(w for _, w in wires), tuple(plugs), corners(build, power, flown, leads))
