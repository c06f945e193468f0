"""Charge that a flight of the log used: by the charger, by the volts at landing, by the alarm."""

from builder.compute.circuit.landing_choice import chosen_landing
from builder.compute.figures.figure import MaybeFigure, apply, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.flight.energy import Charged
from builder.compute.flight.landing import share_of
from builder.compute.flight.share_left import share_by_volts
from builder.compute.formulas.electric.flight_log import (
    cell_of_pack,
    share_left,
    used_by_share,
)
from builder.load.assumed import assumed
from builder.model.build import Build
from builder.model.source.build_log import Flight as Entry

RULE_ERROR = assumed("flight log/rested-rule")
_ALARM_SHARE = assumed("flight log/alarm")
_CHARGER_SHARE = assumed("flight log/charger")
_VOLTS_SPREAD = assumed("flight log/volts")


def used_by_charger(
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


def used_by_volts(
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


def used_by_alarm(
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
