"""What a pack gives between full and landing: charge at its temperature, mean volts, resistance,
usable energy.
"""

from dataclasses import dataclass, fields

from builder.compute.circuit.pack_volts import CHEMISTRY
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.told import PlainShare, told
from builder.compute.flight.ageing import WARM_POCKET, kept
from builder.compute.flight.air import Air
from builder.compute.flight.resistance import heavy_resistance_of, resistance_of
from builder.compute.formulas.electric.battery import (
    pack_volts,
    usable_charge,
    usable_energy,
)
from builder.compute.formulas.electric.battery_state import (
    cold_capacity_share,
    mean_volts_lithium_ion,
    mean_volts_lithium_polymer,
)
from builder.compute.formulas.electric.packs import capacity_in_the_cold, pack_in_the_air
from builder.compute.formulas.electric.reserve import (
    aged_capacity,
)
from builder.compute.formulas.rotors.air import kelvin
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import Build, FittedPack

_CAPACITY_SHARE = assumed("battery/capacity-spread")


@dataclass(frozen=True, eq=False)
class Energy:
    """A pack ready to fly. Volts are of the whole pack; `landing_share` is the share of its charge
    left at landing, `heavy_resistance` its resistance under full throttle.
    """

    pack: str
    capacity: MaybeFigure
    full_volts: MaybeFigure
    mean_volts: MaybeFigure
    resistance: MaybeFigure
    landing_share: MaybeFigure
    charge: MaybeFigure
    heavy_resistance: MaybeFigure

    def usable(self, build: Build, current: MaybeFigure, key: str) -> MaybeFigure:
        """Usable energy at a mean current."""
        return apply(
            f"{key}/energy",
            "Usable energy",
            formula(usable_energy),
            self.charge,
            self.mean_volts,
            current,
            self.resistance,
        )


def _warmth(
    pack: FittedPack, there: Air, start: float | None, start_at: Where | None, key: str
) -> MaybeFigure:
    """Mean temperature of the pack in flight, from that at take-off."""
    given, where, note = start, start_at, ""
    if start is None and pack.use.temperature is not None:
        given, where = pack.use.temperature.value, pack.where.at("temperature")
    if given is None:
        given, where = WARM_POCKET, None
        note = "20 degC: it leaves a warm pocket (common practice, no source)"
    taken = leaf(
        f"{key}/temperature",
        "Temperature of the battery at take-off",
        given,
        "degC",
        own=4.0,
        basis="setting",
        where=where,
        note=note,
    )
    absolute = apply(f"{key}/take-off", "Absolute temperature at take-off", formula(kelvin), taken)
    note = "half-way from take-off to colder air (common practice, no source)"
    label = "Mean temperature of the battery in flight"
    return apply(
        f"{key}/kelvin", label, formula(pack_in_the_air), absolute, there.absolute, note=note
    )


def _capacity(
    build: Build, pack: FittedPack, parallel: Figure, warm: MaybeFigure, key: str
) -> MaybeFigure:
    assert pack.part.capacity is not None  # the caller asked
    given, share = pack.part.capacity, build.site.spreads.capacity
    own = given.spread
    if own is None:
        own = given.value * (share.value if share is not None else _CAPACITY_SHARE)
    where = pack.shelf_where.at("capacity")
    held_to = told("batteries hold what is printed to ", PlainShare(own / given.value))
    note = "" if given.spread is not None else held_to
    printed = leaf(
        f"shelf/{pack.shelf}/capacity",
        "Capacity as printed",
        given.value,
        "C",
        own=own,
        where=where,
        note=note,
    )
    held = kept(build, pack)
    now: MaybeFigure = printed
    if held is not None:
        label = "Capacity at its age"
        now = apply(f"{key}/aged", label, formula(aged_capacity), printed, held)
    cold = apply(
        f"{key}/cold-share",
        "Share of the capacity at its temperature",
        formula(cold_capacity_share),
        warm,
    )
    return apply(
        f"{key}/capacity",
        "Capacity as it flies",
        formula(capacity_in_the_cold),
        now,
        parallel,
        cold,
    )


@dataclass(frozen=True, eq=False)
class Charged:
    """A full pack at the temperature of its flight, before it is known how far it is flown down."""

    pack: str
    chemistry: str
    series: MaybeFigure
    capacity: MaybeFigure
    full_volts: MaybeFigure
    resistance: MaybeFigure
    heavy_resistance: MaybeFigure

    def down_to(self, left: MaybeFigure, key: str) -> Energy:
        """The energy figures, flown down to a share of the charge."""
        filled = leaf(
            f"{key}/full-share",
            "Share of the charge at take-off",
            1.0,
            "1",
            own=0.0,
            basis="setting",
        )
        charge = apply(
            f"{key}/usable-charge",
            "Usable charge",
            formula(usable_charge),
            self.capacity,
            filled,
            left,
        )
        mean_of = (
            mean_volts_lithium_ion
            if self.chemistry == "lithium-ion"
            else mean_volts_lithium_polymer
        )
        middle = apply(
            f"{key}/cell-mean", "Mean resting volts of a cell", formula(mean_of), left, filled
        )
        mean = apply(
            f"{key}/mean-volts",
            "Mean resting volts of the battery",
            formula(pack_volts),
            middle,
            self.series,
        )
        return Energy(
            self.pack,
            self.capacity,
            self.full_volts,
            mean,
            self.resistance,
            left,
            charge,
            self.heavy_resistance,
        )


def charged(
    build: Build,
    name: str,
    there: Air,
    key: str,
    start: float | None = None,
    start_at: Where | None = None,
) -> Charged | Unknown:
    """A full pack in this air; `start` in degC, read there, takes the place of its usual
    temperature at take-off.
    """
    pack = build.packs[name]
    part = pack.part
    if part.cells is None or part.capacity is None:
        return Unknown(
            f"{build.name}/pack/{name}",
            f"Battery {name}",
            (f"cells and capacity of battery {name}",),
        )
    if pack.use.beside:
        lacks = (f"what unlike batteries give together as battery {name}",)
        return Unknown(f"{build.name}/pack/{name}", f"Battery {name}", lacks)
    chemistry = pack.part.chemistry or "lithium-polymer"
    many, whole = pack.use.series, pack.cells or part.cells
    of_one = f"shelf/{pack.shelf}/series"
    series = constant(
        of_one if many == 1 else f"{of_one}-{many}", "Cells in series", float(whole.low), "1"
    )
    parallel = constant(f"{key}/parallel", "Cells in parallel", float(whole.parallel), "1")
    beside = constant(f"{key}/batteries", "Batteries in parallel", float(pack.use.parallel), "1")
    warm = _warmth(pack, there, start, start_at, key)
    full = part.full.value if part.full else CHEMISTRY[chemistry][0]
    cell_full = constant(f"{key}/cell-full", "Full volts of a cell", full, "V")
    top = apply(
        f"{key}/full-volts", "Full volts of the battery", formula(pack_volts), cell_full, series
    )
    capacity = _capacity(build, pack, beside, warm, key)
    ohms = resistance_of(build, pack, series, parallel, warm, key)
    heavy = heavy_resistance_of(pack, ohms, key)
    return Charged(name, chemistry, series, capacity, top, ohms, heavy)


def nothing_known(name: str, why: Unknown) -> Energy:
    """The energy figures of a pack of which too little is known."""
    return Energy(name, *(why,) * (len(fields(Energy)) - 1))
