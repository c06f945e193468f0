"""The worst corners of each pack: full and at landing, at full throttle and in the builder's style,
less the leads' loss.
"""

from dataclasses import dataclass

from builder.compute.circuit.landing_choice import chosen_landing
from builder.compute.circuit.rails import PowerPlan
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, apply, formula, leaf
from builder.compute.figures.sums import difference
from builder.compute.flight.flight import FlightFigures, PackFlight
from builder.compute.flight.full_throttle import punch
from builder.compute.formulas.electric.battery import volts_under_load
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
    """Volts at landing: where they are written, else by the share of the charge that is kept."""
    chosen = chosen_landing(build, build.packs[pack])
    note = "by the share of the charge that is kept" if chosen.volts is None else ""
    return leaf(key, "Landing volts", volts, "V", basis="setting", where=chosen.where, note=note)


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
        pushed = punch(
            build, flight.drive, energy, power, f"{key}/at-landing", low, "battery at landing volts"
        )
        gentle = apply(
            f"{key}/styled-volts",
            "Volts at landing, as the builder flies",
            formula(volts_under_load),
            low,
            flown.styled_current,
            energy.resistance,
        )
        by_words = {
            "full, full throttle": (energy.full_volts, flown.peak_current, flown.sag),
            "at landing, as the builder flies": (low, flown.styled_current, gentle),
            "at landing, full throttle": (low, *pushed),
        }
        for words, given in by_words.items():
            out.append(_corner(build, flown, words, given, leads))
    return tuple(out)
