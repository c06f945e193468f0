"""Where a flight ends: the reserve, the builder's own landing, the timer, and alarms at the reserve."""

from dataclasses import dataclass, fields

from builder.compute.circuit.landing_choice import RESERVE, Chosen, chosen_landing
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.flight.air import Air
from builder.compute.flight.energy import Charged, Energy, charged, nothing_known
from builder.compute.flight.share_left import share_by_rested_volts, share_by_volts
from builder.compute.formulas.electric.battery_state import (
    resting_volts_lithium_ion,
    resting_volts_lithium_polymer,
)
from builder.compute.formulas.electric.reserve import (
    alarm_volts,
    charge_at_alarm,
    left_after,
    timer_of,
)
from builder.load.assumed import assumed
from builder.model.build import Build

HELD = assumed("flight/alarm-held")  # s


@dataclass(frozen=True, eq=False)
class Reserve:
    """The end of a flight on one battery. `time` is the mean down to the reserve with its band,
    `timer` its lower end; alarms stand at the reserve, volts at `current`.
    """

    share: MaybeFigure
    time: MaybeFigure
    timer: MaybeFigure
    left_at_timer: MaybeFigure
    volts: MaybeFigure
    current: MaybeFigure
    used: MaybeFigure
    chosen: Chosen


def share_of(chosen: Chosen, chemistry: str, key: str) -> MaybeFigure:
    """Share of the charge with which a flight ends, by what was chosen; else the usual reserve."""
    label = "Share of the charge kept as a reserve"
    if chosen.volts is None:
        said = chosen.share is not None
        note = "" if said else "20 % (common practice, no source)"
        value = chosen.share if chosen.share is not None else RESERVE
        return leaf(
            f"{key}/share", label, value, "1", basis="setting", where=chosen.where, note=note
        )
    cell = leaf(
        f"{key}/cell-landing",
        f"Landing volts of a cell, {'under load' if chosen.state == 'loaded' else 'rested'}",
        chosen.volts,
        "V",
        own=0.03,
        basis="setting",
        where=chosen.where,
    )
    by_volts = share_by_volts if chosen.state == "loaded" else share_by_rested_volts
    return by_volts(chemistry, cell, key)


def energy_of(build: Build, name: str, there: Air, left: MaybeFigure | None = None) -> Energy:
    """A pack's energy figures in this air, down to where the builder lands: by `left`, the share of
    the charge that a log says; else as the build or the shelf says, else by the usual reserve.
    """
    key = f"{build.name}/pack/{name}"
    full = charged(build, name, there, key)
    if isinstance(full, Unknown):
        return nothing_known(name, full)
    chosen = chosen_landing(build, build.packs[name])
    return full.down_to(left or share_of(chosen, full.chemistry, key), key)


def _spread(key: str, figure: MaybeFigure) -> MaybeFigure:
    if not isinstance(figure, Figure):
        return figure
    return constant(f"{key}/spread", f"Spread of: {figure.label}", figure.spread, figure.unit)


def no_reserve(why: Unknown, chosen: Chosen) -> Reserve:
    """The end of a flight on a battery of which too little is known."""
    figures = (f.name for f in fields(Reserve) if f.name != "chosen")
    return Reserve(chosen=chosen, **dict.fromkeys(figures, why))


def reserve_of(
    key: str,
    chosen: Chosen,
    full: Charged,
    share: MaybeFigure,
    current: MaybeFigure,
    time: MaybeFigure,
) -> Reserve:
    """Timer and alarms of one battery; `time` is down to the reserve at the mean `current`."""
    timer = apply(
        f"{key}/timer",
        "Timer",
        formula(timer_of),
        time,
        _spread(f"{key}/time", time),
        note="lower end of the band of the time down to the reserve",
    )
    left = apply(
        f"{key}/left-at-timer",
        "Charge left when the timer sounds",
        formula(left_after),
        share,
        timer,
        time,
    )
    rested = (
        resting_volts_lithium_ion
        if full.chemistry == "lithium-ion"
        else resting_volts_lithium_polymer
    )
    label = "Rested volts of a cell at the reserve"
    cell = apply(f"{key}/cell-rested", label, formula(rested), share)
    volts = apply(
        f"{key}/alarm-volts",
        "Alarm on volts",
        formula(alarm_volts),
        cell,
        full.series,
        current,
        full.resistance,
        note="under the mean current, held 5 s (common practice, no source)",
    )
    used = apply(
        f"{key}/alarm-used",
        "Alarm on charge used",
        formula(charge_at_alarm),
        full.capacity,
        _spread(f"{key}/capacity", full.capacity),
        share,
        note="by the lower end of what the battery may hold",
    )
    return Reserve(share, time, timer, left, volts, current, used, chosen)
