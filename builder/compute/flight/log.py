"""Flights of the log: the charge that each used, what it left, and its mean power over hover power
in its own air.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from builder.compute.circuit.rails import PowerPlan
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.flight.air import Air, air
from builder.compute.flight.drive import Drive
from builder.compute.flight.energy import Charged, charged
from builder.compute.flight.hover_point import level
from builder.compute.flight.used_charge import used_by_alarm, used_by_charger, used_by_volts
from builder.compute.formulas.electric.battery import volts_under_load
from builder.compute.formulas.electric.battery_state import mean_current
from builder.compute.formulas.electric.flight_log import (
    charge_in_the_air,
)
from builder.compute.formulas.rotors.flying import logged_style
from builder.load.assumed import assumed
from builder.model.build import Build
from builder.model.source.build_log import Flight as Entry

_TIME_SPREAD = assumed("flight log/time")  # s


@dataclass(frozen=True, eq=False)
class LoggedFlight:
    """One flight of the log with its factor; left out where it says too little or lies far off.

    `counted` says how its charge is known: by the charger ('charge'), by the volts at landing
    ('volts'), by the alarm until which it was flown ('alarm'), or not (''). `left` is the share of the charge left.
    """

    index: int
    pack: str
    minutes: float
    counted: str
    left: MaybeFigure
    factor: MaybeFigure
    outlier: bool
    left_out: str


def _factor(
    build: Build,
    d: Drive,
    there: Air,
    mass: MaybeFigure,
    power: PowerPlan,
    full: Charged,
    used: MaybeFigure,
    left: MaybeFigure,
    i: int,
    key: str,
) -> MaybeFigure:
    """Mean power of the flight over hover power at its mass, in its air."""
    entry = build.source.flights[i]
    energy = full.down_to(left, key)
    hovering = level(build, d, there, mass, power, energy, key)
    own, where = entry.airborne.spread or _TIME_SPREAD, build.where("flights", i, "airborne")
    label = f"Time of flight {i + 1}"
    time = leaf(
        f"{key}/airborne", label, entry.airborne.value, "s", own=own, basis="measured", where=where
    )
    stood = constant(
        f"{key}/grounded",
        "Time on the ground",
        entry.grounded.value if entry.grounded else 0.0,
        "s",
    )
    flown = used
    if stood.value:
        label = f"Charge of flight {i + 1} in the air"
        flown = apply(
            f"{key}/flown", label, formula(charge_in_the_air), used, power.standing_current, stood
        )
        flown = used if isinstance(flown, Unknown) else flown
    volts = energy.mean_volts
    if isinstance(energy.resistance, Figure):
        mean = apply(f"{key}/mean-current", "Mean current", formula(mean_current), flown, time)
        label = "Mean volts under load"
        volts = apply(
            f"{key}/mean-loaded", label, formula(volts_under_load), volts, mean, energy.resistance
        )
    label = f"Average power over hover power, flight {i + 1}"
    return apply(
        f"{key}/style",
        label,
        formula(logged_style),
        flown,
        volts,
        time,
        hovering.power,
        shape="lognormal",
    )


def _flight(
    build: Build, d: Drive, weights: Mapping[str, Figure], power: PowerPlan, i: int
) -> LoggedFlight:
    entry, key = build.source.flights[i], f"{build.name}/log/{i + 1}"
    minutes, label = entry.airborne.value / 60, f"Average power over hover power, flight {i + 1}"
    degrees = entry.air.value if entry.air is not None else None
    there = air(build, degrees, f"log/{i + 1}/air", build.where("flights", i, "air"))
    start = entry.pack_temperature.value if entry.pack_temperature is not None else None
    full = charged(
        build, entry.pack, there, key, start, build.where("flights", i, "pack_temperature")
    )
    why = _why_not(entry, full, d)
    if why or isinstance(full, Unknown):
        gone = Unknown(f"{key}/style", label, (why,))
        return LoggedFlight(i, entry.pack, minutes, "", gone, gone, False, why)
    without_charge = "volts" if entry.landed_at else "alarm"
    how = "charge" if entry.used is not None else without_charge
    read = {"charge": used_by_charger, "volts": used_by_volts, "alarm": used_by_alarm}[how]
    used, left = read(build, i, entry, full, key)
    factor = _factor(build, d, there, weights[entry.pack], power, full, used, left, i, key)
    why = "left out by the builder" if entry.leave_out else ""
    if isinstance(factor, Unknown):
        why = why or "; ".join(factor.missing)
    return LoggedFlight(i, entry.pack, minutes, how, left, factor, False, why)


def _why_not(entry: Entry, full: Charged | Unknown, d: Drive) -> str:
    """What keeps a flight from saying anything."""
    if isinstance(full, Unknown):
        return f"lacks {', '.join(full.missing)}"
    if entry.propeller is not None and (
        d.propeller is None or entry.propeller != d.propeller.shelf
    ):
        return f"flown with {entry.propeller}"
    if entry.used is None and entry.landed_at is None and not entry.until_alarm:
        return "neither charge used nor volts at landing noted"
    return ""


def logged(
    build: Build, d: Drive, weights: Mapping[str, Figure], power: PowerPlan
) -> tuple[LoggedFlight, ...]:
    """Every flight of the log, in the order of the file. `weights` are all-up, by pack, as flown
    (kg).
    """
    return tuple(
        _flight(build, d, weights, power, i)
        for i, e in enumerate(build.source.flights)
        if e.pack in weights
    )
