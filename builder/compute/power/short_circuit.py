"""A dead short where the battery leads end: the current that each battery drives into it, and which
copper melts first. An estimate: a short has some resistance of its own, and cells give less once
they warm.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import hypot

from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, apply, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.flight.flight import FlightFigures, PackFlight
from builder.compute.formulas.electric.circuits import short_circuit_current
from builder.compute.formulas.electric.conductor_heat import time_to_melt
from builder.compute.loops.shares import copper_ohms
from builder.compute.power.path_wires import STRANDS, SupplyWire
from builder.compute.weight.wire_mass import copper_area
from builder.load.assumed import assumed, assumed_list
from builder.model.build import Build, FittedPack
from builder.model.kinds import Cable
from builder.model.values.measures import Gauge

_CONTACT, _CONTACT_SPREAD = assumed_list("wires/power-contact")
_AMBIENT = assumed("wires/air")
_HOLDS = assumed("wires/lead-melts-within")  # s: beyond it the heat has gone elsewhere


@dataclass(frozen=True, eq=False)
class ShortCircuit:
    """One battery's short: the current, what melts first within seconds (`melts`, '' for nothing)
    after how long, from and to (s); `untold` are conductors of which nobody says the gauge.
    """

    pack: str
    current: MaybeFigure
    melts: str
    after: tuple[float, float] | None
    untold: tuple[str, ...] = ()


@dataclass(frozen=True)
class _Copper:
    """A conductor of the loop, and the share of the current that it carries."""

    name: str
    gauge: Gauge | None
    share: float


def _ohms(build: Build, pack: FittedPack, leads: Figure) -> tuple[float, float] | str:
    """Resistance of all leads and contacts and its standard deviation (Ω), or what is not told."""
    gauge, length = pack.part.lead_gauge, pack.part.lead
    if gauge is None or length is None:
        return f"lead and lead gauge of battery {pack.key}"
    of_one = pack.use.series / pack.use.parallel
    copper, contacts = 2.0 * copper_ohms(gauge, length.value) * of_one, 2.0 * of_one
    for cable in (c for c in build.of_kind(Cable) if c.key in pack.use.through):
        if cable.part.gauge is None or cable.part.length is None:
            return f"gauge and length of {cable.key}"
        copper += 2.0 * copper_ohms(cable.part.gauge, cable.part.length.value)
        contacts += 2.0
    spread = hypot(STRANDS * (copper + leads.value), contacts * _CONTACT_SPREAD)
    return leads.value + copper + contacts * _CONTACT, spread


def _loop(build: Build, pack: FittedPack, leads: MaybeFigure, key: str) -> MaybeFigure:
    """All leads and contacts that a short goes through, out and back."""
    name, label = f"{key}/leads", "Leads and contacts"
    if isinstance(leads, Unknown):
        return Unknown(name, label, leads.missing)
    found = _ohms(build, pack, leads)
    if isinstance(found, str):
        return Unknown(name, label, (found,))
    note = "of aircraft and battery, with new contacts (from memory)"
    return leaf(name, label, found[0], "Ω", own=found[1], basis="estimate", note=note)


def _copper(build: Build, pack: FittedPack, wires: Sequence[SupplyWire]) -> Iterator[_Copper]:
    """Every conductor of the loop."""
    yield _Copper(f"lead of battery {pack.key}", pack.part.lead_gauge, 1.0 / pack.use.parallel)
    for cable in (c for c in build.of_kind(Cable) if c.key in pack.use.through):
        yield _Copper(cable.key, cable.part.gauge, 1.0)
    for wire in (w for w in wires if w.motors):
        yield _Copper(f"{wire.run.start} to {wire.run.end}", wire.run.wire.gauge, wire.share)


def _first(coppers: Sequence[_Copper], current: Figure) -> tuple[str, tuple[float, float] | None]:
    """What melts first, and from when to when by the spread of the current; '' where nothing does
    within seconds. The square of area over current is the time, so the least area a share is first.
    """
    sized = [(copper_area(c.gauge) / c.share, c) for c in coppers if c.gauge is not None]
    if not sized:
        return "", None
    whole, thinnest = min(sized, key=lambda s: s[0])
    weak = current.value - current.spread
    late = weak if weak > 0.0 else current.value
    strong = current.value + current.spread
    soon, long = (time_to_melt(amperes, whole, _AMBIENT) for amperes in (strong, late))
    return ("", None) if soon > _HOLDS else (thinnest.name, (soon, long))


def worst_short(
    build: Build, flown: FlightFigures, leads: MaybeFigure, wires: Sequence[SupplyWire]
) -> ShortCircuit | None:
    """The short of the battery that gives most, one of which that is known; None without a battery."""
    packs = build.packs.items()
    made = [_one(build, p, flown.packs[k], leads, wires) for k, p in packs]
    return max(made, key=_size, default=None)


def _size(short: ShortCircuit) -> float:
    return short.current.value if isinstance(short.current, Figure) else 0.0


def _one(
    build: Build,
    pack: FittedPack,
    flown: PackFlight,
    leads: MaybeFigure,
    wires: Sequence[SupplyWire],
) -> ShortCircuit:
    key = f"{build.name}/short/{pack.key}"
    loop, label = _loop(build, pack, leads, key), f"Into a dead short, battery {pack.key}"
    volts, ohms = flown.energy.full_volts, flown.energy.resistance
    current = apply(f"{key}/current", label, formula(short_circuit_current), volts, ohms, loop)
    if isinstance(current, Unknown):
        return ShortCircuit(pack.key, current, "", None)
    coppers = list(_copper(build, pack, wires))
    melts, after = _first(coppers, current)
    untold = tuple(c.name for c in coppers if c.gauge is None)
    return ShortCircuit(pack.key, current, melts, after, untold)
