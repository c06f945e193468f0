"""What a pack gives: full, nominal and landing volts by chemistry, capacity and resistance."""

from dataclasses import dataclass

from builder.compute.circuit.landing_choice import Chosen, chosen_landing, loaded_volts
from builder.load.assumed import assumed, assumed_list
from builder.model.build import Build, FittedPack

# Volts per cell: full, nominal. Cell data sheets: full 4.20 ± 0.05, nominal 3.6-3.7.
CHEMISTRY = {
    "lithium-polymer": assumed_list("battery/lithium-polymer"),
    "high-voltage lithium-polymer": assumed_list("battery/high-voltage-lithium-polymer"),
    "lithium-ion": assumed_list("battery/lithium-ion"),
}
# Below this a cell is harmed. Lithium-ion: the lowest of the makers' lower limits, 2.5 to 3.0 V by
# type (cell data sheets; Linden's Handbook of Batteries, from memory). Lithium-polymer: common
# practice, no source.
_LOWEST_OF_POLYMER = assumed("battery/lithium-polymer-lowest")
LOWEST = {
    "lithium-polymer": _LOWEST_OF_POLYMER,
    "high-voltage lithium-polymer": _LOWEST_OF_POLYMER,
    "lithium-ion": assumed("battery/lithium-ion-lowest"),
}
_LATE_OF_POLYMER = assumed("battery/lithium-polymer-late")
_LATE = {
    "lithium-polymer": _LATE_OF_POLYMER,
    "high-voltage lithium-polymer": _LATE_OF_POLYMER,
    "lithium-ion": assumed("battery/lithium-ion-late"),
}


@dataclass(frozen=True)
class PackVolts:
    """A pack's volts as a whole (V), cells in series, all cells in parallel, capacity (C) and
    resistance (Ω). `least_fed` is what loads must bear: the landing, or where nobody says its
    volts what is usual at a late landing, if that is lower.
    """

    key: str
    series: int
    parallel: int
    full: float
    nominal: float
    landing: float
    least_fed: float
    lowest: float
    capacity: float | None
    resistance: float | None
    chemistry: str


def _late(chosen: Chosen, landing: float, chemistry: str) -> float:
    """Volts of a cell that loads must bear: a share of the charge names none."""
    if chosen.volts is not None:
        return landing
    return min(landing, _LATE[chemistry])


def _one(build: Build, pack: FittedPack) -> PackVolts | None:
    part, cells = pack.part, pack.cells
    if cells is None:
        return None
    chemistry = part.chemistry or "lithium-polymer"
    full, nominal = CHEMISTRY[chemistry]
    full = part.full.value if part.full is not None else full
    nominal = part.nominal.value if part.nominal is not None else nominal
    chosen = chosen_landing(build, pack)
    landing = loaded_volts(chosen, chemistry)
    late = _late(chosen, landing, chemistry)
    series, wide, capacity = cells.low, cells.parallel, pack.capacity
    cell = part.resistance.value if part.resistance is not None else None
    resistance = cell * series / wide if cell is not None else None
    lowest = LOWEST[chemistry] * series
    least_fed = late * series
    return PackVolts(
        pack.key,
        series,
        wide,
        full * series,
        nominal * series,
        landing * series,
        least_fed,
        lowest,
        capacity,
        resistance,
        chemistry,
    )


def volts_of_packs(build: Build) -> tuple[PackVolts, ...]:
    """The volts of every pack whose cells are known, in the order of the file."""
    made = (_one(build, p) for p in build.packs.values())
    return tuple(p for p in made if p is not None)
