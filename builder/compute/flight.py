"""Will it fly, and how long: hover, punch, sag and endurance for each pack, with the log where there is one."""

from collections.abc import Mapping
from dataclasses import dataclass

from builder.compute.air import Air, air
from builder.compute.energy import Energy, energy_of
from builder.compute.figure import Figure, Known, Unknown, apply, constant, formula
from builder.compute.formulas.battery import current_for_power, endurance, volts_under_load
from builder.compute.formulas.flying import (
    bench_full_thrust,
    punch_current,
    styled_power,
    sum_of_powers,
    throttle_from_bench,
    thrust_over_weight,
)
from builder.compute.hover import Drive, Hover, drive, hover
from builder.compute.mass import MassTable
from builder.compute.rails import Power
from builder.compute.speeds import Push, Speeds, speeds
from builder.compute.style import Style, style_of
from builder.model.build import Build

BAND = 0.80  # the share of flights that a band is meant to hold


@dataclass(frozen=True, eq=False)
class PackFlight:
    """Figures of flight on one pack. `endurance_styled` is in the builder's own style, by the log where there is one."""

    pack: str
    mass: Known
    hover: Hover
    energy: Energy
    hover_power: Known
    hover_current: Known
    throttle: Known
    thrust_to_weight: Known
    disc_loading: Known
    endurance_hover: Known
    styled_power: Known
    styled_current: Known
    endurance_styled: Known
    peak_current: Known
    sag: Known
    full_thrust: Known
    speeds: Speeds


@dataclass(frozen=True, eq=False)
class Flight:
    """All packs, the air, what drives it, and what the log taught."""

    air: Air
    drive: Drive
    style: Style
    packs: Mapping[str, PackFlight]


@dataclass(frozen=True, eq=False)
class _Level:
    """Hover on one pack before any style is known."""

    mass: Known
    hover: Hover
    energy: Energy
    power: Known
    current: Known
    throttle: Known


def _level(build: Build, d: Drive, there: Air, mass: Known, power: Power, energy: Energy, key: str) -> _Level:
    volts = energy.mean_volts
    found = hover(build, d, there, mass, key)
    total = apply(
        f"{key}/power",
        "Hover power with the standing load",
        formula(sum_of_powers),
        found.power,
        power.standing,
        shape="lognormal",
    )
    current = apply(
        f"{key}/current",
        "Hover current",
        formula(current_for_power),
        total,
        volts,
        energy.resistance,
        shape="lognormal",
    )
    return _Level(mass, found, energy, total, current, _throttle(d, found, energy, current, key))


def _throttle(d: Drive, found: Hover, energy: Energy, current: Known, key: str) -> Known:
    """Hover throttle on the pack's volts, sagging under the hover current where its resistance is known."""
    label, u = "Hover throttle", energy.mean_volts
    if d.bench is None or isinstance(found.bench_throttle, Unknown):
        return Unknown(f"{key}/throttle", label, _missing_of(found.bench_throttle))
    if isinstance(energy.resistance, Figure):
        u = apply(
            f"{key}/hover-volts", "Volts of the pack at hover", formula(volts_under_load), u, current, energy.resistance
        )
    return apply(
        f"{key}/throttle", label, formula(throttle_from_bench), found.bench_throttle, d.bench.volts, u,
        shape="lognormal", note="throttle scales as volts: bench volts over the pack's volts at hover",
    )  # fmt: skip


def _missing_of(known: Known) -> tuple[str, ...]:
    return known.missing if isinstance(known, Unknown) else ()


def _full_thrust(build: Build, d: Drive, there: Air, energy: Energy, power: Power, key: str) -> Known:
    """Thrust of all motors at full throttle, at the volts that are left of the pack's mean volts then."""
    label = "Full thrust"
    if d.bench is None:
        return Unknown(f"{key}/full-thrust", label, ("a bench table of this motor with this propeller",))
    _, sagging = punch(build, d, energy, power, f"{key}/mean", energy.mean_volts, "pack at its mean volts")
    volts = sagging if isinstance(sagging, Figure) else energy.mean_volts
    note = "speed in step with volts, thrust with its square and with the density of the air; "
    note += "volts sagging from the mean" if volts is sagging else "no sag, for want of the pack's resistance"
    rotors = constant(f"{build.name}/rotors", "Number of rotors", float(d.rotors), "1")
    b = d.bench
    return apply(
        f"{key}/full-thrust", label, formula(bench_full_thrust),
        b.top_thrust, b.top_volts, volts, there.density, b.density, rotors, note=note,
    )  # fmt: skip


def punch(
    build: Build, d: Drive, energy: Energy, power: Power, key: str, resting: Known, state: str = "full pack"
) -> tuple[Known, Known]:
    """Current at full throttle solved with the sag, and the volts that are left, from the pack's resting volts."""
    label = "Current at full throttle"
    b = d.bench
    if b is None:
        missing = ("a bench table of this motor with this propeller",)
        return Unknown(f"{key}/punch", label, missing), Unknown(f"{key}/sag", "Volts at full throttle", missing)
    rotors = constant(f"{build.name}/rotors", "Number of rotors", float(d.rotors), "1")
    current = apply(
        f"{key}/punch",
        label,
        formula(punch_current),
        b.top_current,
        b.top_current_volts,
        resting,
        energy.resistance,
        rotors,
        power.standing_current,
        note=f"{state}; sag and current solved together; motor current with volts squared",
    )
    sag = apply(f"{key}/sag", "Volts at full throttle", formula(volts_under_load), resting, current, energy.resistance)
    return current, sag


def _pack_flight(
    build: Build, level: _Level, d: Drive, there: Air, style: Style, power: Power, pack: str
) -> PackFlight:
    key = f"{build.name}/flight/{pack}"
    found = level.hover
    usable = level.energy.usable(build, level.current, f"{key}/hover")
    hovering = apply(
        f"{key}/endurance-hover", "Time at hover", formula(endurance), usable, level.power, shape="lognormal"
    )
    styled = apply(
        f"{key}/styled-power",
        "Mean power in the builder's style",
        formula(styled_power),
        level.power,
        style.following,
        shape="lognormal",
    )
    drawn = apply(
        f"{key}/styled-current",
        "Mean current in the builder's style",
        formula(current_for_power),
        styled,
        level.energy.mean_volts,
        level.energy.resistance,
        shape="lognormal",
    )
    left = level.energy.usable(build, drawn, f"{key}/styled")
    time = apply(
        f"{key}/endurance", "Time in the air", formula(endurance), left, styled, shape="lognormal", note=style.note
    )
    full = _full_thrust(build, d, there, level.energy, power, key)
    ratio = apply(f"{key}/thrust-to-weight", "Thrust over weight", formula(thrust_over_weight), full, level.mass)
    peak, sag = punch(build, d, level.energy, power, key, level.energy.full_volts)
    return PackFlight(
        pack,
        level.mass,
        found,
        level.energy,
        level.power,
        level.current,
        level.throttle,
        ratio,
        found.disc_loading,
        hovering,
        styled,
        drawn,
        time,
        peak,
        sag,
        full,
        speeds(d, there, Push(level.energy.full_volts, peak, sag), power.standing_current, found.speed, f"{key}/speed"),
    )


def flight(build: Build, mass: MassTable, power: Power) -> Flight:
    """Flight figures of a build on each of its packs, flown with its payload."""
    there, d = air(build), drive(build)
    weights = mass.all_up_loaded or mass.all_up
    levels = {
        pack: _level(build, d, there, weights[pack], power, energy_of(build, pack), f"{build.name}/flight/{pack}")
        for pack in build.packs
    }
    style = style_of(build, {k: (v.power, v.energy) for k, v in levels.items()})
    return Flight(there, d, style, {k: _pack_flight(build, v, d, there, style, power, k) for k, v in levels.items()})


def known(figure: Known) -> float | None:
    """The value of a figure, or None."""
    return figure.value if isinstance(figure, Figure) else None
