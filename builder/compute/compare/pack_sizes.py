"""Time in the air over the size of the pack: the build's packs, those of the shelf, and a curve
between them.
"""

from dataclasses import dataclass, replace
from math import fsum
from statistics import linear_regression, median

from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, constant
from builder.compute.flight.energy import Charged, charged
from builder.compute.flight.flight import in_style
from builder.compute.flight.hover_point import level
from builder.compute.flight.landing import energy_of
from builder.compute.formulas.electric.battery import current_for_power, endurance, usable_energy
from builder.compute.results import Results
from builder.compute.weight.mass import mass_table
from builder.load.assumed import assumed_list
from builder.model.build import Build, FittedPack
from builder.model.kinds import Pack
from builder.model.source.build_source import PackUse

_POINTS = 24
_BELOW, _ABOVE = assumed_list("weight and size/size-curve")


@dataclass(frozen=True, eq=False)
class PackSize:
    """One pack of this size: capacity in C, all-up weight, time in the air. `own` tells the build's
    from the shelf's.
    """

    pack: str
    shelf: str
    label: str
    own: bool
    capacity: float
    mass: MaybeFigure
    time: MaybeFigure


@dataclass(frozen=True, eq=False)
class PackSizes:
    """Packs of as many cells as the build's first one, smallest first.

    `curve` holds capacity (C), all-up mass (kg) and time (s); `limits` the capacity (C) at which
    the curve reaches a limit of mass; both are empty where too little is known.
    """

    series: int
    sizes: tuple[PackSize, ...]
    curve: tuple[tuple[float, float, float], ...]
    limits: tuple[tuple[str, float], ...]


def _alike(first: Pack, part: Pack) -> bool:
    same = part.cells is not None and first.cells is not None and part.cells.low == first.cells.low
    return same and part.chemistry == first.chemistry and part.capacity is not None


def _own(build: Build, results: Results, first: FittedPack) -> list[PackSize]:
    out = []
    for key, pack in build.packs.items():
        found = results.flight.packs[key]
        if (
            _alike(first.part, pack.part)
            and pack.capacity is not None
            and pack.use.series == first.use.series
        ):
            capacity = pack.capacity
            label = f"{pack.part.name}, {key}"
            out.append(
                PackSize(key, pack.shelf, label, True, capacity, found.mass, found.endurance_styled)
            )
    return out


def _on_shelf(build: Build, results: Results, first: FittedPack) -> list[PackSize]:
    """Each other pack of the shelf with as many cells, as if the build flew on it."""
    used, flown, out = {p.shelf for p in build.packs.values()}, results.flight, []
    for shelf, entry in sorted(build.shelf.items()):
        part = entry.part
        if (
            not isinstance(part, Pack)
            or shelf in used
            or not _alike(first.part, part)
            or part.capacity is None
        ):
            continue
        name, key = f"size-{shelf}", f"{build.name}/sizes/{shelf}"
        use = PackUse(use=shelf).model_copy(update={"series": first.use.series})
        pack = FittedPack(name, shelf, part, use, entry.where, entry.where)
        source = build.source.model_copy(update={"weighed": ()})
        there = replace(build, packs={name: pack}, source=source, base=build)
        weighed = mass_table(there, results.mass)
        own = weighed.packs[name].line
        mass: MaybeFigure = own if isinstance(own, Unknown) else weighed.all_up[name]
        energy = energy_of(there, name, flown.air, flown.style.left)
        hovering = level(there, flown.drive, flown.air, mass, results.power, energy, key)
        _, _, time = in_style(there, hovering, flown.style, key)
        holds = part.capacity.value
        out.append(
            PackSize(
                name,
                shelf,
                part.name,
                False,
                holds,
                mass,
                time,
            )
        )
    return out


def _time(build: Build, results: Results, full: Charged, mass: float, bench: bool) -> float | None:
    """Time in the air (s) at a mass on a full pack; None where it does not hover so, or is known
    another way.
    """
    flown, style = results.flight, results.flight.style.following
    landing = flown.packs[full.pack].energy.landing_share
    energy = full.down_to(landing, "curve")
    at = level(
        build,
        flown.drive,
        flown.air,
        constant("curve/mass", "", mass, "kg"),
        results.power,
        energy,
        "curve",
    )
    known = (at.power, style, energy.mean_volts, energy.resistance, energy.charge)
    if at.hover.from_bench != bench or any(isinstance(k, Unknown) for k in known):
        return None
    power, factor, volts, resistance, charge = (k.value for k in known if isinstance(k, Figure))
    try:
        current = current_for_power(power * factor, volts, resistance)
        return endurance(usable_energy(charge, volts, current, resistance), power * factor)
    except ValueError:
        return None


def _curve(
    build: Build, results: Results, key: str, sizes: list[PackSize]
) -> tuple[tuple[tuple[float, float, float], ...], tuple[tuple[str, float], ...]]:
    """The curve through a straight line of mass over capacity, resistance falling as capacity
    grows; and the limits.
    """
    flown = results.flight.packs[key]
    full = charged(build, key, results.flight.air, "curve")
    line = [(s.capacity, s.mass.value) for s in sizes if isinstance(s.mass, Figure)]
    if isinstance(full, Unknown) or not isinstance(full.resistance, Figure):
        return (), ()
    if not isinstance(flown.mass, Figure) or not line:
        return (), ()
    own = next(s.capacity for s in sizes if s.pack == key)
    bare = results.mass.dry.value + fsum(
        p.line.value for p in results.mass.payload if isinstance(p.line, Figure)
    )
    if len({q for q, _ in line}) > 1:
        slope, foot = linear_regression(*zip(*line, strict=True))
    else:
        slope, foot = median((m - bare) / q for q, m in line), bare
    if slope <= 0 or not isinstance(full.capacity, Figure):
        return (), ()
    low, high = _BELOW * min(q for q, _ in line), _ABOVE * max(q for q, _ in line)
    points = []
    for i in range(_POINTS + 1):
        size = low + (high - low) * i / _POINTS
        charge, ohms = full.capacity.value * size / own, full.resistance.value * own / size
        capacity = constant("curve/capacity", "", charge, "C")
        resistance = constant("curve/resistance", "", ohms, "Ω")
        made = replace(full, capacity=capacity, resistance=resistance)
        mass = foot + slope * size
        time = _time(build, results, made, mass, flown.hover.from_bench)
        if time is not None:
            points.append((size, mass, time))
    if any(isinstance(s.mass, Figure) and s.mass.lacks for s in sizes):
        return tuple(points), ()  # a weight that lacks parts reaches a limit sooner than it seems
    limits = [
        (x.name, (x.mass.value - foot) / slope)
        for x in build.site.limits
        if x.applies_to == "all-up"
    ]
    return tuple(points), tuple((n, q) for n, q in limits if low < q < high)


def pack_sizes(build: Build, results: Results) -> PackSizes | None:
    """Packs of one cell count by size; None without a pack of known cells and capacity."""
    key = next(iter(build.packs), "")
    first = build.packs[key] if key else None
    if (
        first is None
        or first.cells is None
        or first.capacity is None
        or not results.flight.drive.rotors
    ):
        return None
    sizes = sorted(
        [*_own(build, results, first), *_on_shelf(build, results, first)],
        key=lambda s: (s.capacity, s.label),
    )
    curve, limits = _curve(build, results, key, sizes)
    return PackSizes(first.cells.low, tuple(sizes), curve, limits)
