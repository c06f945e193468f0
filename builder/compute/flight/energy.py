"""What a pack gives between full and landing: charge at its temperature, mean volts, resistance,
usable energy.
"""

from dataclasses import dataclass

from builder.compute.circuit.landing_choice import RECOVERY
from builder.compute.circuit.pack_volts import CHEMISTRY
from builder.compute.figures.figure import (
    Figure,
    MaybeFigure,
    Unknown,
    apply,
    constant,
    formula,
    leaf,
)
from builder.compute.figures.told import PlainShare, told
from builder.compute.flight.ageing import WARM_POCKET, grown, kept
from builder.compute.flight.air import Air
from builder.compute.formulas.electric.battery import (
    pack_resistance,
    pack_volts,
    usable_charge,
    usable_energy,
)
from builder.compute.formulas.electric.battery_state import (
    charge_share_lithium_ion,
    charge_share_lithium_polymer,
    cold_capacity_share,
    cold_resistance,
    mean_volts_lithium_ion,
    mean_volts_lithium_polymer,
)
from builder.compute.formulas.electric.flight_log import rested_volts
from builder.compute.formulas.electric.packs import capacity_in_the_cold, pack_in_the_air
from builder.compute.formulas.electric.reserve import (
    aged_capacity,
    resistance_under_full_throttle,
)
from builder.compute.formulas.rotors.air import kelvin
from builder.diagnostics.where import Where
from builder.load.assumed import assumed, assumed_list
from builder.model.build import Build, FittedPack

_ACTIVATION = assumed("battery/activation")  # K, see cold_resistance
_RESISTANCE_SHARE = assumed("battery/resistance-spread")
_CAPACITY_SHARE = assumed("battery/capacity-spread")
_OVER_CHARGER = assumed_list("battery/heavy-resistance")


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


def _resistance(
    build: Build, pack: FittedPack, series: Figure, parallel: Figure, warm: MaybeFigure, key: str
) -> MaybeFigure:
    part = pack.part
    best = part.resistance.best() if part.resistance is not None else None
    if best is None:
        cell: MaybeFigure = Unknown(
            f"shelf/{pack.shelf}/resistance",
            "Resistance of a cell",
            (f"cell resistance of battery {pack.key}",),
        )
    else:
        basis, given = best
        own, note = given.spread, ""
        if own is None:
            own = given.value * _RESISTANCE_SHARE
            note = "give or take 20 % (common practice, no source)"
        cell = leaf(
            f"shelf/{pack.shelf}/resistance",
            "Resistance of a cell at 25 °C",
            given.value,
            "Ω",
            own=own,
            basis=basis,  # type: ignore[arg-type]  # the model names its bases as text
            where=pack.shelf_where.at("resistance"),
            note=note,
        )
    more = grown(build, pack, key)
    if more is not None:
        label = "Resistance of a cell at its age"
        cell = apply(f"{key}/cell-aged", label, formula(resistance_under_full_throttle), cell, more)
    activation = constant(
        "pack/activation",
        "Growth of the resistance in the cold",
        _ACTIVATION,
        "K",
        "common practice, no source",
    )
    cold = apply(
        f"{key}/cell-resistance",
        "Resistance of a cell as it flies",
        formula(cold_resistance),
        cell,
        warm,
        activation,
    )
    return apply(
        f"{key}/resistance",
        "Resistance of the battery",
        formula(pack_resistance),
        cold,
        series,
        parallel,
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


def share_by_volts(chemistry: str, cell: MaybeFigure, key: str) -> MaybeFigure:
    """Share of the charge left by the volts of a cell (V) that were seen at landing, under load."""
    recovery = leaf(
        "pack/recovery",
        "Recovery of a cell off its load",
        RECOVERY[0],
        "V",
        own=RECOVERY[1],
        basis="estimate",
        note="common practice, no source",
    )
    rested = apply(
        f"{key}/cell-rested",
        "Volts of a cell rested after landing",
        formula(rested_volts),
        cell,
        recovery,
    )
    shares = (
        charge_share_lithium_ion if chemistry == "lithium-ion" else charge_share_lithium_polymer
    )
    return apply(
        f"{key}/share-by-volts", "Share of the charge left, by its volts", formula(shares), rested
    )


def share_by_rested_volts(chemistry: str, cell: MaybeFigure, key: str) -> MaybeFigure:
    """Share of the charge left by the volts of a cell (V) that has rested."""
    shares = (
        charge_share_lithium_ion if chemistry == "lithium-ion" else charge_share_lithium_polymer
    )
    return apply(
        f"{key}/share-by-volts", "Share of the charge left, by its volts", formula(shares), cell
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
    chemistry = pack.part.chemistry or "lithium-polymer"
    series = constant(f"shelf/{pack.shelf}/series", "Cells in series", float(part.cells.low), "1")
    parallel = constant(
        f"{key}/parallel", "Cells in parallel", float(part.cells.parallel * pack.use.parallel), "1"
    )
    warm = _warmth(pack, there, start, start_at, key)
    full = part.full.value if part.full else CHEMISTRY[chemistry][0]
    cell_full = constant(f"{key}/cell-full", "Full volts of a cell", full, "V")
    top = apply(
        f"{key}/full-volts", "Full volts of the battery", formula(pack_volts), cell_full, series
    )
    capacity = _capacity(build, pack, parallel, warm, key)
    ohms = _resistance(build, pack, series, parallel, warm, key)
    heavy = _heavy(pack, ohms, key)
    return Charged(name, chemistry, series, capacity, top, ohms, heavy)


def _heavy(pack: FittedPack, ohms: MaybeFigure, key: str) -> MaybeFigure:
    """Resistance under full throttle: higher, and less well known, than what a charger reads."""
    best = pack.part.resistance.best() if pack.part.resistance is not None else None
    if best is None or best[0] != "measured":
        return ohms
    label, (value, own) = "Under full throttle over what a charger reads", _OVER_CHARGER
    note = "from memory"
    factor = leaf("pack/over-charger", label, value, "1", own=own, basis="estimate", note=note)
    how = formula(resistance_under_full_throttle)
    return apply(
        f"{key}/heavy-resistance", "Resistance of the battery at full throttle", how, ohms, factor
    )


def nothing_known(name: str, why: Unknown) -> Energy:
    """The energy figures of a pack of which too little is known."""
    return Energy(name, *(why,) * 7)
