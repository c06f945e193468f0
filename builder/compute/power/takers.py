"""What hangs on each contact that draws: its own current, that of its rails, and that of its motors."""

from builder.compute.circuit.rails import PowerPlan, Supplied
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, apply, constant
from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.sums import difference
from builder.compute.flight.flight import FlightFigures
from builder.compute.formulas.electric.electronics import shared_current
from builder.compute.power.path_wires import Taken
from builder.model.build import Build, Contact
from builder.model.kinds import SpeedController


def _motor_current(
    build: Build, flown: FlightFigures, power: PowerPlan, controllers: int
) -> tuple[MaybeFigure, MaybeFigure]:
    """Motor current on one speed controller, mean and at full throttle, on the pack that gives
    most.
    """
    out: list[MaybeFigure] = []
    for name, label in (
        ("styled_current", "Motors, mean"),
        ("peak_current", "Motors at full throttle"),
    ):
        of_packs: list[MaybeFigure] = [getattr(p, name) for p in flown.packs.values()]
        known = [p for p in of_packs if isinstance(p, Figure)]
        key = f"{build.name}/path/motors-{name.split('_')[0]}"
        if not known or len(known) < len(of_packs):
            missing = next((p for p in of_packs if isinstance(p, Unknown)), None)
            out.append(
                Unknown(key, label, missing.missing if missing is not None else ("a battery",))
            )
            continue
        largest = max(known, key=lambda f: f.value)
        alone = difference(key, label, "A", largest, power.standing_current)
        count = constant(
            f"{build.name}/path/controllers", "Speed controllers", float(controllers), "1"
        )
        share = apply(
            f"{key}-each", f"{label}, one speed controller", formula(shared_current), alone, count
        )
        out.append(alone if controllers == 1 else share)
    return out[0], out[1]


def takers_of(build: Build, flown: FlightFigures, power: PowerPlan) -> dict[Contact, Taken]:
    """What hangs on each contact that draws: its own current, that of its rails, and that of its
    motors.
    """
    controllers = sum(f.count for f in build.of_kind(SpeedController))
    steady, short = (
        _motor_current(build, flown, power, max(1, controllers))
        if flown.drive.rotors
        else (None, None)
    )
    out: dict[Contact, Taken] = {}
    rows: tuple[Supplied, ...] = (*power.on_pack, *(s for r in power.rails for s in r.supplied))
    for s in rows:
        own = [r.input_current for r in power.rails if r.source.part == s.load.part and r.supplied]
        drives = (
            isinstance(build.parts[s.load.pad.part].part, SpeedController) and steady is not None
        )
        turning: tuple[MaybeFigure, ...] = (steady,) if drives and steady is not None else ()
        pushing: tuple[MaybeFigure, ...] = (short,) if drives and short is not None else ()
        out[s.load.pad] = Taken((s.typical, *own, *turning), (s.peak, *own, *pushing), drives)
    return out
