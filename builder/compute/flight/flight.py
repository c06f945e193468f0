"""Will it fly, and how long: hover, punch, sag and endurance for each pack, with the log where
there is one.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from builder.compute.circuit.landing_choice import chosen_landing
from builder.compute.circuit.peak_limits import PeakLimit, peak_limits
from builder.compute.circuit.rails import PowerPlan
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, apply
from builder.compute.figures.sloped_formula import formula
from builder.compute.flight.air import Air, air
from builder.compute.flight.drive import Drive, drive
from builder.compute.flight.energy import Energy, charged
from builder.compute.flight.full_throttle import full_thrust, punch
from builder.compute.flight.hover import Hover
from builder.compute.flight.hover_point import HoverPoint, level
from builder.compute.flight.landing import (
    Reserve,
    energy_of,
    no_reserve,
    reserve_of,
    share_of,
)
from builder.compute.flight.log import logged
from builder.compute.flight.speeds import Push, Speeds, speeds
from builder.compute.flight.style import FlyingStyle, style_of
from builder.compute.formulas.electric.battery import current_for_power, endurance
from builder.compute.formulas.rotors.flying import styled_power, thrust_over_weight
from builder.compute.weight.mass import MassTable
from builder.load.assumed import assumed
from builder.model.build import Build

BAND = assumed("flight/band")


@dataclass(frozen=True, eq=False)
class PackFlight:
    """Figures of flight on one pack. `endurance_styled` is in the builder's own style and down to
    the builder's own landing, by the log where there is one; `reserve` is what to plan by.
    """

    pack: str
    mass: MaybeFigure
    hover: Hover
    energy: Energy
    hover_power: MaybeFigure
    hover_current: MaybeFigure
    throttle: MaybeFigure
    thrust_to_weight: MaybeFigure
    disc_loading: MaybeFigure
    endurance_hover: MaybeFigure
    styled_power: MaybeFigure
    styled_current: MaybeFigure
    endurance_styled: MaybeFigure
    peak_current: MaybeFigure
    sag: MaybeFigure
    full_thrust: MaybeFigure
    usable: MaybeFigure
    speeds: Speeds
    reserve: Reserve


@dataclass(frozen=True, eq=False)
class FlightFigures:
    """All packs, the air, what drives it, what the log taught, and what full throttle asks of each
    carrier.
    """

    air: Air
    drive: Drive
    style: FlyingStyle
    packs: Mapping[str, PackFlight]
    limits: tuple[PeakLimit, ...]


def in_style(
    build: Build, hovering: HoverPoint, style: FlyingStyle, key: str, end: str = ""
) -> tuple[MaybeFigure, MaybeFigure, MaybeFigure]:
    """Mean power and current of the next flight in the builder's style, and its time in the air.

    `end` says where it ends, where that is not the builder's own landing.
    """
    energy = hovering.energy
    styled = apply(
        f"{key}/styled-power",
        "Mean power as the builder flies",
        formula(styled_power),
        hovering.power,
        style.following,
        shape="lognormal",
        note=style.note,
    )
    drawn = apply(
        f"{key}/styled-current",
        "Mean current as the builder flies",
        formula(current_for_power),
        styled,
        energy.mean_volts,
        energy.resistance,
        shape="lognormal",
        note="current and sag solved together",
    )
    left = energy.usable(build, drawn, f"{key}/styled")
    own = "the share left by the log" if style.left is not None else "the builder's own landing"
    note = f"{style.note}; down to {end or own}"
    time = apply(
        f"{key}/endurance",
        f"Time down to {end}" if end else "Time in the air",
        formula(endurance),
        left,
        styled,
        shape="lognormal",
        note=note,
    )
    return styled, drawn, time


def _pack_flight(
    build: Build,
    hovering: HoverPoint,
    d: Drive,
    there: Air,
    style: FlyingStyle,
    power: PowerPlan,
    pack: str,
) -> PackFlight:
    key = f"{build.name}/flight/{pack}"
    found = hovering.hover
    usable = hovering.energy.usable(build, hovering.current, f"{key}/hover")
    resting = apply(
        f"{key}/endurance-hover",
        "Time at hover",
        formula(endurance),
        usable,
        hovering.power,
        shape="lognormal",
    )
    styled, drawn, time = in_style(build, hovering, style, key)
    full = full_thrust(build, d, there, hovering.energy, power, key)
    note = full.note if isinstance(full, Figure) else ""
    ratio = apply(
        f"{key}/thrust-to-weight",
        "Thrust over weight",
        formula(thrust_over_weight),
        full,
        hovering.mass,
        note=note,
    )
    peak, sag = punch(build, d, hovering.energy, power, key, hovering.energy.full_volts)
    return PackFlight(
        pack,
        hovering.mass,
        found,
        hovering.energy,
        hovering.power,
        hovering.current,
        hovering.throttle,
        ratio,
        found.disc_loading,
        resting,
        styled,
        drawn,
        time,
        peak,
        sag,
        full,
        usable,
        speeds(
            d,
            there,
            Push(hovering.energy.full_volts, peak, sag),
            power.standing_current,
            found.speed,
            f"{key}/speed",
        ),
        _reserve(build, hovering, style, pack, there, key),
    )


def _reserve(
    build: Build, hovering: HoverPoint, style: FlyingStyle, pack: str, there: Air, key: str
) -> Reserve:
    """Timer and alarms: the time down to the reserve in the builder's style, and its lower end."""
    fitted, name = build.packs[pack], f"{key}/reserve"
    chosen = chosen_landing(build, fitted)
    full = charged(build, pack, there, f"{build.name}/pack/{pack}")
    if isinstance(full, Unknown):
        return no_reserve(full, chosen)
    share = share_of(chosen, full.chemistry, name)
    down = replace(hovering, energy=full.down_to(share, name))
    _, current, time = in_style(build, down, style, name, "the reserve")
    return reserve_of(name, chosen, full, share, current, time)


def log_style(
    build: Build, mass: MassTable, power: PowerPlan, lent: FlyingStyle | None = None
) -> FlyingStyle:
    """How the builder flies, by this build's log; else as lent, stated or usual."""
    return style_of(build, logged(build, drive(build), mass.all_up, power), lent)


def _hovering(
    build: Build,
    weights: Mapping[str, Figure],
    power: PowerPlan,
    there: Air,
    d: Drive,
    style: FlyingStyle,
    pack: str,
) -> HoverPoint:
    energy = energy_of(build, pack, there, style.left)
    key = f"{build.name}/flight/{pack}"
    return level(build, d, there, weights[pack], power, energy, key)


def time_in_air(
    build: Build,
    weights: Mapping[str, Figure],
    power: PowerPlan,
    lent: FlyingStyle | None,
    pack: str,
) -> MaybeFigure:
    """`endurance_styled` of one pack alone, for a build that has no log of its own."""
    there, d, style = air(build), drive(build), style_of(build, (), lent)
    hovering = _hovering(build, weights, power, there, d, style, pack)
    return in_style(build, hovering, style, f"{build.name}/flight/{pack}")[2]


def flight(
    build: Build,
    weights: Mapping[str, Figure],
    power: PowerPlan,
    lent: FlyingStyle | None = None,
) -> FlightFigures:
    """Flight figures of a build on each of its packs, at its flying weights with its payload.

    `lent` is the style of another build's log, which counts while this build has none of its own.
    """
    there, d = air(build), drive(build)
    style = style_of(build, logged(build, d, weights, power), lent)
    packs = {}
    for pack in build.packs:
        hovering = _hovering(build, weights, power, there, d, style, pack)
        packs[pack] = _pack_flight(build, hovering, d, there, style, power, pack)
    limits = peak_limits(build, d.rotors, power, {k: p.peak_current for k, p in packs.items()})
    return FlightFigures(there, d, style, packs, limits)


def known(figure: MaybeFigure) -> float | None:
    """The value of a figure, or None."""
    return figure.value if isinstance(figure, Figure) else None
