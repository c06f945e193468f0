"""What leads carry where several batteries plug into the aircraft, in parallel or in series.

Plus, minus and the links between batteries are one net of resistors, with each battery as one of
them: all have the same volts, so none drives a current into another, and loads share themselves by
resistance alone. Two batteries that are not alike are judged by the rules of the battery.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from math import fsum

from builder.compute.circuit.battery_levels import BatteryLevels
from builder.compute.circuit.feeds import PACK
from builder.compute.circuit.nets import Net, Netlist
from builder.compute.circuit.rails import PowerPlan, Supplied
from builder.compute.loops.shares import Battery, CurrentWay, join_ohms, shares_of
from builder.compute.power.path_wires import Taken, joins_between
from builder.compute.power.ring_ways import Back, RingFlow, ring_ways
from builder.load.assumed import assumed_list
from builder.model.build import Build, Contact

_CONTACT = assumed_list("wires/power-contact")[0]


@dataclass(frozen=True)
class BatteryNets:
    """The nets between several batteries and what hangs on them: `grounds` by name are those from
    which current returns, `nets` all, `rows` how many batteries stand side by side.
    """

    nets: tuple[Net, ...]
    grounds: frozenset[str]
    batteries: tuple[Battery, ...]
    rows: int = 1

    @property
    def names(self) -> frozenset[str]:
        """The names of all of them."""
        return frozenset(n.name for n in self.nets)


NONE = BatteryNets((), frozenset(), ())


def _of_one(power: PowerPlan, levels: BatteryLevels) -> float:
    """Resistance of what plugs into one connector (Ω); where nobody says it, so little that leads
    share a current as unequally as they can.
    """
    known = [p.resistance for p in power.packs if p.resistance is not None]
    return max(min(known, default=0.0) * levels.rows / max(1, levels.steps), 2.0 * _CONTACT)


def battery_nets(nets: Netlist, power: PowerPlan) -> BatteryNets:
    """The nets of several batteries; none where one connector or none is wired, or a ring of
    batteries is shorted.
    """
    levels = nets.levels
    if len(levels.plugs) < 2 or levels.rings:
        return NONE
    ohms = _of_one(power, levels)
    batteries = tuple(Battery(p.minus, p.plus, ohms) for p in levels.plugs)
    ends = [nets.of[c] for p in levels.plugs for c in (p.minus, p.plus)]
    found = {n.name: n for n in ends}
    grounds = frozenset(name for name in found if levels.below[name] == 0)
    return BatteryNets(tuple(found.values()), grounds, batteries, levels.rows)


def _ground_of(build: Build, nets: Iterable[Net], board: str) -> Contact | None:
    """A ground contact of a piece on one of these nets."""
    on_them = (c for net in nets for c in net.contacts if c.board == board)
    return next((c for c in on_them if build.pad(c).role == "ground"), None)


def _flows(
    build: Build, of: BatteryNets, supplied: Iterable[Supplied], takers: Mapping[Contact, Taken]
) -> Iterator[RingFlow]:
    """Each load's way through the batteries and back, or through the grounds to its rail."""
    grounds = [n for n in of.nets if n.name in of.grounds]
    there = {c for net in of.nets for c in net.contacts}
    for each in supplied:
        load, source = each.load, each.load.source
        enters = _ground_of(build, grounds, load.part)
        if source is None or enters is None:
            continue
        leaves = load.pad if load.pad in there else None
        if source != PACK:
            leaves = _ground_of(build, grounds, source.part)
        if leaves is not None:
            yield RingFlow(load.part, source, takers[load.pad], CurrentWay(enters, leaves))


@dataclass(frozen=True, eq=False)
class BatteryWays:
    """What each join of these nets carries, on the way out with the links between batteries, and on
    the way back; and the resistance of all leads together as the motors find it (Ω), None where it
    is not known.
    """

    out: tuple[Back, ...]
    back: tuple[Back, ...]
    leads: float | None


def _leads(build: Build, of: BatteryNets, flows: list[RingFlow]) -> float | None:
    """By the heat in each lead for one ampere of all: R = Σ s² R_k."""
    motors = [f for f in flows if f.taken.motors]
    shares = shares_of(build, of.nets, [f.way for f in motors], of.batteries)
    if not motors or shares.missing:
        return None
    found = []
    for i in range(len(motors)):
        carrying = [(s[i], join_ohms(build, j)) for j, s in shares.of.items() if s[i]]
        if any(ohms is None for _, ohms in carrying):
            return None
        found.append(fsum(share * share * (ohms or 0.0) for share, ohms in carrying))
    return max(found)


def battery_ways(
    build: Build, of: BatteryNets, supplied: Iterable[Supplied], takers: Mapping[Contact, Taken]
) -> BatteryWays:
    """The currents of the leads of several batteries; nothing where there are not several."""
    flows = list(_flows(build, of, supplied, takers))
    out = [j for n in of.nets if n.name not in of.grounds for j in joins_between(n)]
    back = [j for n in of.nets if n.name in of.grounds for j in joins_between(n)]
    found = {w.join: w for w in ring_ways(build, of.nets, [*out, *back], flows, of.batteries)}
    ways, returns = ([found[j] for j in joins if j in found] for joins in (out, back))
    return BatteryWays(tuple(ways), tuple(returns), _leads(build, of, flows) if flows else None)
