"""The worst corners of each pack: full and at landing, at full throttle and in the builder's style,
less the leads' loss.
"""

from dataclasses import dataclass

from builder.compute.circuit.landing_choice import chosen_landing
from builder.compute.circuit.rails import PowerPlan
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, apply, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.sums import difference
from builder.compute.flight.flight import FlightFigures, PackFlight
from builder.compute.flight.full_throttle import punch
from builder.compute.formulas.electric.battery import resting_volts
from builder.compute.formulas.electric.electronics import drop
from builder.model.build import Build


@dataclass(frozen=True, eq=False)
class PackCorner:
    """One corner of a pack: its resting volts, the current, the volts under it, what the battery
    leads lose, what is left.
    """

    pack: str
    name: str
    resting: MaybeFigure
    current: MaybeFigure
    loaded: MaybeFigure
    lost: MaybeFigure
    left: MaybeFigure


def _corner(
    build: Build,
    flown: PackFlight,
    name: str,
    given: tuple[MaybeFigure, MaybeFigure, MaybeFigure],
    leads: MaybeFigure,
) -> PackCorner:
    resting, current, loaded = given
    key = f"{build.name}/corner/{flown.pack}/{name.replace(' ', '-')}"
    lost = apply(f"{key}/lost", f"Lost in the battery leads, {name}", formula(drop), current, leads)
    left = difference(f"{key}/left", f"At the speed controller, {name}", "V", loaded, lost)
    return PackCorner(flown.pack, name, resting, current, loaded, lost, left)


def _landing_volts(build: Build, pack: str, key: str, volts: float) -> Figure:
    """Volts at landing, under the load of the builder's flying: where they are written, else by the
    share of the charge that is kept.
    """
    chosen = chosen_landing(build, build.packs[pack])
    note = "by the share of the charge that is kept" if chosen.volts is None else ""
    label = "Landing volts, under load"
    return leaf(key, label, volts, "V", basis="setting", where=chosen.where, note=note)


def _rested(flown: PackFlight, key: str, low: MaybeFigure) -> MaybeFigure:
    """Landing volts without the load that they were read under, so that it counts once."""
    name, current = "Volts at landing without load", flown.styled_current
    return apply(
        f"{key}/rested", name, formula(resting_volts), low, current, flown.energy.resistance
    )


def corners(
    build: Build, power: PowerPlan, flight: FlightFigures, leads: MaybeFigure
) -> tuple[PackCorner, ...]:
    """Each pack full and at landing, at full throttle and in the builder's style: the worst that
    the boards see.
    """
    out = []
    at_landing = {p.key: p.landing for p in power.packs}
    for name, flown in flight.packs.items():
        energy, key = flown.energy, f"{build.name}/corner/{name}"
        low: MaybeFigure = Unknown(f"{key}/landing", "Landing volts", (f"cells of battery {name}",))
        if name in at_landing:
            low = _landing_volts(build, name, f"{key}/landing", at_landing[name])
        rested = _rested(flown, key, low)
        pushed = punch(
            build,
            flight.drive,
            energy,
            power,
            f"{key}/at-landing",
            rested,
            "battery at landing volts",
        )
        by_words = {
            "full, full throttle": (energy.full_volts, flown.peak_current, flown.sag),
            "at landing, as the builder flies": (rested, flown.styled_current, low),
            "at landing, full throttle": (rested, *pushed),
        }
        for words, given in by_words.items():
            out.append(_corner(build, flown, words, given, leads))
    return tuple(out)
