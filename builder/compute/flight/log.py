"""Flights of the log: the charge that each used, what it left, and its mean power over hover power
in its own air.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from builder.compute.circuit.landing_choice import chosen_landing
from builder.compute.circuit.rails import PowerPlan
from builder.compute.figures.figure import (
    Figure,
    MaybeFigure,
    Unknown,
    apply,
    constant,
    formula,
    leaf,
)
from builder.compute.flight.air import Air, air
from builder.compute.flight.energy import Charged, charged, share_by_volts
from builder.compute.flight.hover import Drive
from builder.compute.flight.hover_point import level
from builder.compute.flight.landing import share_of
from builder.compute.formulas.electric.battery import volts_under_load
from builder.compute.formulas.electric.battery_state import mean_current
from builder.compute.formulas.electric.flight_log import (
    cell_of_pack,
    charge_in_the_air,
    share_left,
    used_by_share,
)
from builder.compute.formulas.rotors.flying import logged_style
from builder.load.assumed import assumed
from builder.model.build import Build
from builder.model.source.build_source import Flight as Entry

RULE_ERROR = assumed("flight log/rested-rule")
_ALARM_SHARE = assumed("flight log/alarm")
_CHARGER_SHARE = assumed("flight log/charger")
_VOLTS_SPREAD = assumed("flight log/volts")
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


def _by_charger(
    build: Build, i: int, entry: Entry, full: Charged, key: str
) -> tuple[MaybeFigure, MaybeFigure]:
    """Charge used and share left, by what the charger put back."""
    assert entry.used is not None  # the caller asked
    own = entry.used.spread or _CHARGER_SHARE * entry.used.value
    where = build.where("flights", i, "used")
    used = leaf(
        f"{key}/used",
        f"Charge of flight {i + 1}",
        entry.used.value,
        "C",
        own=own,
        basis="measured",
        where=where,
    )
    return used, apply(
        f"{key}/left", "Share of the charge left", formula(share_left), used, full.capacity
    )


def _by_volts(
    build: Build, i: int, entry: Entry, full: Charged, key: str
) -> tuple[MaybeFigure, MaybeFigure]:
    """Charge used and share left, by the volts at landing."""
    assert entry.landed_at is not None  # the caller asked
    own, where = entry.landed_at.spread or _VOLTS_SPREAD, build.where("flights", i, "landed_at")
    label = f"Volts at landing of flight {i + 1}"
    seen = leaf(
        f"{key}/landed-at",
        label,
        entry.landed_at.value,
        "V",
        own=own,
        basis="measured",
        where=where,
    )
    return _down_to_volts(i, seen, full, key)


def _by_alarm(
    build: Build, i: int, entry: Entry, full: Charged, key: str
) -> tuple[MaybeFigure, MaybeFigure]:
    """Charge used and share left where it is only written that it was flown until the alarm: it
    landed where the alarm is set, by charge, by volts, else at the reserve.
    """
    alarms = enumerate(build.source.setup.alarms)
    n, alarm = next(((n, a) for n, a in alarms if a.pack == entry.pack), (0, None))
    note = "flown until the alarm; the alarm is set there"
    where = build.where("setup", "alarms", n)
    if alarm is not None and alarm.used is not None:
        label, value = f"Charge of flight {i + 1}, by its alarm", alarm.used.value
        own, at = _ALARM_SHARE * value, where.at("used")
        used = leaf(f"{key}/used", label, value, "C", own=own, basis="setting", where=at, note=note)
        how, about = formula(share_left), "Share of the charge left"
        return used, apply(f"{key}/left", about, how, used, full.capacity)
    if alarm is not None and alarm.volts is not None:
        label, value, at = f"Alarm of flight {i + 1}", alarm.volts.value, where.at("volts")
        seen = leaf(
            f"{key}/alarm",
            label,
            value,
            "V",
            own=_VOLTS_SPREAD,
            basis="setting",
            where=at,
            note=note,
        )
        return _down_to_volts(i, seen, full, key)
    chosen = chosen_landing(build, build.packs[entry.pack])
    left = share_of(chosen, full.chemistry, key)
    return _used_down_to(i, left, full, key, "by its alarm"), left


def _down_to_volts(
    i: int, seen: MaybeFigure, full: Charged, key: str
) -> tuple[MaybeFigure, MaybeFigure]:
    """Charge used and share left, by volts of the pack that were seen in the air."""
    cell = apply(
        f"{key}/cell-landed", "Volts of a cell at landing", formula(cell_of_pack), seen, full.series
    )
    left = share_by_volts(full.chemistry, cell, key)
    return _used_down_to(i, left, full, key, "by its volts at landing"), left


def _used_down_to(i: int, left: MaybeFigure, full: Charged, key: str, how: str) -> MaybeFigure:
    """Charge used, by the share that is left."""
    note = (
        "7 % of the capacity, wide because the curve of resting volts is flat (common practice, no"
        " source)"
    )
    error = leaf(
        f"{key}/rule",
        "Error of the rule from volts to charge",
        0.0,
        "1",
        own=RULE_ERROR,
        basis="estimate",
        note=note,
    )
    label = f"Charge of flight {i + 1}, {how}"
    return apply(f"{key}/used", label, formula(used_by_share), full.capacity, left, error)


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
    read = {"charge": _by_charger, "volts": _by_volts, "alarm": _by_alarm}[how]
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
