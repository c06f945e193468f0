"""What a pack gives between full and landing: charge at its temperature, mean volts, resistance, usable energy."""

from dataclasses import dataclass

from builder.compute.figure import Figure, Known, Unknown, apply, constant, formula, leaf
from builder.compute.formulas.air import kelvin
from builder.compute.formulas.battery import pack_resistance, pack_volts, usable_charge, usable_energy
from builder.compute.formulas.battery_state import (
    charge_share_lithium_ion,
    charge_share_lithium_polymer,
    cold_capacity_share,
    cold_resistance,
    mean_volts_lithium_ion,
    mean_volts_lithium_polymer,
)
from builder.compute.formulas.packs import capacity_in_the_cold
from builder.compute.pack_volts import CHEMISTRY
from builder.model.build import Build, FittedPack

WARM_POCKET = 20.0  # degC: a pack leaves a warm pocket into cold air (common practice, no source)
_ACTIVATION = 2000.0  # K, see cold_resistance
_RESISTANCE_SHARE = 0.2
_CAPACITY_SHARE = 0.04
_FULL_SHARE_SPREAD = 0.02


@dataclass(frozen=True, eq=False)
class Energy:
    """A pack ready to fly. Volts are of the whole pack."""

    pack: str
    capacity: Known
    full_volts: Known
    mean_volts: Known
    resistance: Known
    landing_share: Known
    charge: Known

    def usable(self, build: Build, current: Known, key: str) -> Known:
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


def _unknown(build: Build, pack: str, missing: str) -> Energy:
    gone = Unknown(f"{build.name}/pack/{pack}", f"Pack {pack}", (missing,))
    return Energy(pack, *(gone,) * 6)


def _resistance(build: Build, pack: FittedPack, series: Figure, parallel: Figure, warm: Known, key: str) -> Known:
    part = pack.part
    best = part.resistance.best() if part.resistance is not None else None
    if best is None:
        cell: Known = Unknown(
            f"shelf/{pack.shelf}/resistance", "Resistance of a cell", (f"cell resistance of pack {pack.key}",)
        )
    else:
        own = best[1].spread if best[1].spread is not None else best[1].value * _RESISTANCE_SHARE
        cell = leaf(
            f"shelf/{pack.shelf}/resistance",
            "Resistance of a cell at 25 °C",
            best[1].value,
            "Ω",
            own=own,
            basis=best[0],  # type: ignore[arg-type]  # the model names its bases as text
            where=pack.shelf_where.at("resistance"),
        )
    activation = constant(
        "pack/activation", "Growth of the resistance in the cold", _ACTIVATION, "K", "common practice, no source"
    )
    cold = apply(
        f"{key}/cell-resistance", "Resistance of a cell as it flies", formula(cold_resistance), cell, warm, activation
    )
    return apply(f"{key}/resistance", "Resistance of the pack", formula(pack_resistance), cold, series, parallel)


def energy_of(build: Build, name: str, temperature: float | None = None, landing: float | None = None) -> Energy:
    """A pack's energy figures. `temperature` in degC and `landing` in V a cell take the place of the usual ones."""
    pack = build.packs[name]
    part = pack.part
    if part.cells is None or part.capacity is None:
        return _unknown(build, name, f"cells and capacity of pack {name}")
    chemistry = part.chemistry or "lithium-polymer"
    ion = chemistry == "lithium-ion"
    full, _, low = CHEMISTRY[chemistry]
    setup = build.source.setup.landing
    chosen = pack.use.landing or part.landing or (setup.volts if setup is not None else None)
    low = landing if landing is not None else chosen.value if chosen is not None else low
    degrees = (
        temperature if temperature is not None else pack.use.temperature.value if pack.use.temperature else WARM_POCKET
    )
    key = f"{build.name}/pack/{name}" + ("" if temperature is None else f"/at-{degrees:g}")
    series = constant(f"shelf/{pack.shelf}/series", "Cells in series", float(part.cells.low), "1")
    parallel = constant(f"{key}/parallel", "Cells in parallel", float(part.cells.parallel * pack.use.parallel), "1")
    warm = apply(
        f"{key}/kelvin",
        "Temperature of the pack",
        formula(kelvin),
        leaf(
            f"{key}/temperature",
            "Temperature of the pack",
            degrees,
            "degC",
            own=4.0,
            basis="setting",
            note="" if temperature is not None or pack.use.temperature else "20 degC: it leaves a warm pocket",
        ),
    )
    share = build.site.spreads.capacity.value if build.site.spreads.capacity is not None else _CAPACITY_SHARE
    own = part.capacity.spread if part.capacity.spread is not None else part.capacity.value * share
    printed = leaf(
        f"shelf/{pack.shelf}/capacity",
        "Capacity as printed",
        part.capacity.value,
        "C",
        own=own,
        where=pack.shelf_where.at("capacity"),
    )
    cold = apply(f"{key}/cold-share", "Share of the capacity at its temperature", formula(cold_capacity_share), warm)
    capacity = apply(f"{key}/capacity", "Capacity as it flies", formula(capacity_in_the_cold), printed, parallel, cold)
    cell_full = constant(f"{key}/cell-full", "Full volts of a cell", part.full.value if part.full else full, "V")
    cell_low = leaf(
        f"{key}/cell-landing",
        "Landing volts of a cell, at rest",
        low,
        "V",
        own=0.03,
        basis="setting",
        where=build.where("packs", name),
    )
    shares = charge_share_lithium_ion if ion else charge_share_lithium_polymer
    filled = leaf(f"{key}/full-share", "Share of the charge at take-off", 1.0, "1", own=0.0, basis="setting")
    left = apply(f"{key}/landing-share", "Share of the charge at landing", formula(shares), cell_low)
    charge = apply(f"{key}/usable-charge", "Usable charge", formula(usable_charge), capacity, filled, left)
    middle = apply(
        f"{key}/cell-mean",
        "Mean resting volts of a cell",
        formula(mean_volts_lithium_ion if ion else mean_volts_lithium_polymer),
        left,
        filled,
    )
    mean = apply(f"{key}/mean-volts", "Mean resting volts of the pack", formula(pack_volts), middle, series)
    top = apply(f"{key}/full-volts", "Full volts of the pack", formula(pack_volts), cell_full, series)
    return Energy(name, capacity, top, mean, _resistance(build, pack, series, parallel, warm, key), left, charge)
