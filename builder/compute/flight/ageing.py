"""What age leaves of a battery: charge and resistance by its charges and years, and by the log
where that says both the charge used and the volts at landing.
"""

from dataclasses import dataclass
from datetime import date
from math import sqrt
from statistics import fmean

from builder.compute.circuit.landing_choice import RECOVERY
from builder.compute.figures.figure import Figure, MaybeFigure, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.formulas.constants import ZERO_CELSIUS
from builder.compute.formulas.electric.battery_state import (
    charge_share_lithium_ion,
    charge_share_lithium_polymer,
    cold_capacity_share,
)
from builder.compute.formulas.electric.packs import pack_in_the_air
from builder.compute.formulas.electric.reserve import (
    charge_lost_by_age,
    kept_by_age_and_log,
    resistance_grown_by_age,
)
from builder.load.assumed import assumed
from builder.model.build import Build, FittedPack
from builder.rounding import counted

WARM_POCKET = assumed("battery/warm-pocket")  # degC
_WIDE = assumed("battery/age-spread")
_OF_CURVE = assumed("battery/rested-curve")
_OF_FLIGHT = assumed("battery/rested-flight")


@dataclass(frozen=True)
class BatteryAge:
    """Charges and years of a battery; None where nobody noted either."""

    cycles: float
    years: float


def age_of(build: Build, pack: FittedPack) -> BatteryAge | None:
    """How old a battery is on the day that the site counts from, else when the build was revised."""
    part, today = pack.part, build.site.as_of or build.source.revised
    if part.cycles is None and part.bought is None:
        return None
    years = 0.0
    if part.bought is not None and today is not None:
        years = max(0.0, _days(part.bought, today) / 365.25)
    return BatteryAge(float(part.cycles or 0), years)


def _days(first: date, last: date) -> float:
    return float((last - first).days)


def _inputs(pack: FittedPack, age: BatteryAge) -> tuple[Figure, Figure]:
    key = f"shelf/{pack.shelf}"
    cycles = constant(f"{key}/cycles", "How often it was charged", age.cycles, "1")
    return cycles, constant(f"{key}/years", "Years since it was bought", age.years, "1")


def grown(build: Build, pack: FittedPack, key: str) -> MaybeFigure | None:
    """How many times its resistance when new; None where it was read, which knows the age, or
    where no age is noted.
    """
    age, best = age_of(build, pack), pack.part.resistance
    said = best.best() if best is not None else None
    if age is None or said is None or said[0] == "measured":
        return None
    value = resistance_grown_by_age(age.cycles, age.years)
    label, note = "Resistance over that of a new battery", "from memory, half as much or more"
    own = max(0.02, _WIDE * (value - 1.0))
    return leaf(
        f"shelf/{pack.shelf}/grown", label, value, "1", own=own, basis="estimate", note=note
    )


def _by_flights(build: Build, pack: FittedPack) -> tuple[float, ...]:
    """Share of the printed charge by each flight that says both charge used and volts at landing."""
    part = pack.part
    cells, whole = pack.cells, pack.capacity
    if whole is None or cells is None:
        return ()
    of = charge_share_lithium_ion if part.chemistry == "lithium-ion" else None
    share = of or charge_share_lithium_polymer
    out = []
    for flight in build.source.flights:
        used, landed = flight.used, flight.landed_at
        if flight.pack != pack.key or flight.leave_out or used is None or landed is None:
            continue
        start = flight.pack_temperature.value if flight.pack_temperature else WARM_POCKET
        air = flight.air.value if flight.air else start
        warm = pack_in_the_air(start + ZERO_CELSIUS, air + ZERO_CELSIUS)
        left = share(landed.value / cells.low + RECOVERY[0])
        try:
            held = used.value / (1.0 - left) / cold_capacity_share(warm)
        except (ValueError, ZeroDivisionError):
            continue
        out.append(held / whole)
    return tuple(out)


def kept(build: Build, pack: FittedPack) -> MaybeFigure | None:
    """Share of its printed charge that a battery still holds; None where neither its age nor the log
    says anything.
    """
    age, flown = age_of(build, pack), _flown(build, pack)
    name = f"shelf/{pack.shelf}"
    by_age: MaybeFigure | None = None
    spread = 0.0
    if age is not None:
        lost = apply(
            f"{name}/lost", "Charge lost by age", formula(charge_lost_by_age), *_inputs(pack, age)
        )
        value = 1.0 - lost.value if isinstance(lost, Figure) else 1.0
        spread = max(0.01, _WIDE * (1.0 - value))
        note = "by its charges and years (from memory, with a wide band)"
        label = "Share of the printed charge left by age"
        by_age = leaf(f"{name}/kept", label, value, "1", own=spread, basis="estimate", note=note)
    if by_age is None or not flown:
        return by_age
    values, whose = flown
    own = sqrt(_OF_CURVE**2 + _OF_FLIGHT**2 / len(values))
    flights = counted(len(values), "flight that says", "flights that say")
    note = f"from {flights} charge used and volts at landing"
    by_log = leaf(
        f"{whose}/pack/{pack.key}/kept-by-log",
        "Share of the printed charge, by the log",
        min(1.1, fmean(values)),
        "1",
        own=own,
        basis="measured",
        note=note,
    )
    key = f"{whose}/pack/{pack.key}"
    of_age = constant(f"{key}/age-spread", "Spread by age", spread, "1")
    of_log = constant(f"{key}/log-spread", "Spread by the log", own, "1")
    label = "Share of the printed charge that it holds"
    how = formula(kept_by_age_and_log)
    return apply(f"{key}/kept", label, how, by_age, of_age, by_log, of_log)


def _flown(build: Build, pack: FittedPack) -> tuple[tuple[float, ...], str] | None:
    """What flights say, of this build's log or of that of its bases with the same battery."""
    values = _by_flights(build, pack)
    if values:
        return values, build.name
    base = build.log_of
    there = base.packs.get(pack.key) if base is not None else None
    if base is None or there is None or there.shelf != pack.shelf:
        return None
    return _flown(base, there)
