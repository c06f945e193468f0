"""Hover on one pack in one air, before any style is known: power, current with the sag, throttle."""

from dataclasses import dataclass

from builder.compute.circuit.rails import PowerPlan
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, apply
from builder.compute.figures.sloped_formula import formula
from builder.compute.flight.air import Air
from builder.compute.flight.drive import Drive
from builder.compute.flight.energy import Energy
from builder.compute.flight.hover import Hover, hover
from builder.compute.formulas.electric.battery import current_for_power, volts_under_load
from builder.compute.formulas.rotors.flying import sum_of_powers, throttle_from_bench
from builder.model.build import Build


@dataclass(frozen=True, eq=False)
class HoverPoint:
    """Hover of the whole aircraft: `power` holds the standing load, `current` is the pack's."""

    mass: MaybeFigure
    hover: Hover
    energy: Energy
    power: MaybeFigure
    current: MaybeFigure
    throttle: MaybeFigure


def level(
    build: Build,
    d: Drive,
    there: Air,
    mass: MaybeFigure,
    power: PowerPlan,
    energy: Energy,
    key: str,
) -> HoverPoint:
    """Hover at a mass (kg) on one pack."""
    found = hover(build, d, there, mass, key)
    label = "Hover power with the standing load"
    whole = apply(
        f"{key}/power",
        label,
        formula(sum_of_powers),
        found.power,
        power.standing,
        shape="lognormal",
    )
    current = apply(
        f"{key}/current",
        "Hover current",
        formula(current_for_power),
        whole,
        energy.mean_volts,
        energy.resistance,
        shape="lognormal",
        note="current and sag solved together",
    )
    return HoverPoint(
        mass, found, energy, whole, current, _throttle(d, found, energy, current, key)
    )


def _throttle(
    d: Drive, found: Hover, energy: Energy, current: MaybeFigure, key: str
) -> MaybeFigure:
    """Hover throttle on the pack's volts, sagging under the hover current where its resistance is
    known.
    """
    label, u = "Hover throttle", energy.mean_volts
    if d.bench is None or isinstance(found.bench_throttle, Unknown):
        missing = found.bench_throttle.missing if isinstance(found.bench_throttle, Unknown) else ()
        return Unknown(f"{key}/throttle", label, missing)
    if isinstance(energy.resistance, Figure):
        loaded = "Volts of the battery at hover"
        u = apply(
            f"{key}/hover-volts", loaded, formula(volts_under_load), u, current, energy.resistance
        )
    return apply(
        f"{key}/throttle",
        label,
        formula(throttle_from_bench),
        found.bench_throttle,
        d.bench.volts,
        u,
        shape="lognormal",
        note="throttle scales as volts: bench volts over the battery's volts at hover",
    )
