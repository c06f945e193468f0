"""Hover of one aircraft two ways: from the motor's bench table, and from momentum theory with a
figure of merit.
"""

from dataclasses import dataclass

from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.slopes import monotone_reach
from builder.compute.figures.told import PlainShare, told
from builder.compute.flight.air import Air
from builder.compute.flight.bench_rows import BenchRows
from builder.compute.flight.drive import Drive
from builder.compute.flight.wash import by_wash
from builder.compute.formulas.electric.electronics import electrical_load
from builder.compute.formulas.rotors.bench_table import (
    bench_current,
    bench_speed,
    bench_throttle,
    thrust_as_read,
    true_current,
)
from builder.compute.formulas.rotors.flying import all_rotors, table_thrust
from builder.compute.formulas.rotors.rotor import (
    disc_area,
    electrical_power,
    ideal_hover_power,
    shaft_power,
    small_propeller_merit,
    thrust_for_mass,
)
from builder.compute.formulas.rotors.rotor_scaling import disc_loading
from builder.compute.formulas.rotors.wash import thrust_in_clear_air
from builder.load.assumed import assumed, assumed_list
from builder.model.build import Build

MERIT_LOG_SPREAD = assumed("flight/merit-spread")  # see the docstring of small_propeller_merit
DRIVE_EFFICIENCY = assumed_list("flight/drive-efficiency")
_BENCH_NOTE = (
    "the same thrust takes the same power on other volts; thrust in other air by its density"
)
_THEORY_NOTE = (
    "momentum theory with a figure of merit and an efficiency of the drive, hovering clear of the"
    " ground"
)


@dataclass(frozen=True, eq=False)
class Hover:
    """Hover figures. `power` is electrical, all motors, at the volts of the pack; bench where it
    reaches, else theory.

    `bench_current` is of one motor, it and `bench_throttle` on the bench's volts; `speed` is known
    by the bench only.
    """

    thrust_each: MaybeFigure
    disc_loading: MaybeFigure
    ideal_power: MaybeFigure
    theory_power: MaybeFigure
    bench_current: MaybeFigure
    bench_power: MaybeFigure
    bench_throttle: MaybeFigure
    speed: MaybeFigure
    power: MaybeFigure
    from_bench: bool


def _area(build: Build, d: Drive) -> MaybeFigure:
    key = f"{build.name}/hover/disc"
    if d.propeller is None or d.propeller.part.diameter is None:
        return Unknown(key, "Area of one disc", ("diameter of the propeller",))
    diameter = constant(
        f"shelf/{d.propeller.shelf}/diameter",
        "Diameter of the propeller",
        d.propeller.part.diameter.value,
        "m",
    )
    return apply(key, "Area of one disc", formula(disc_area), diameter)


def _merit(build: Build, d: Drive) -> MaybeFigure:
    key, label = (
        f"shelf/{d.propeller.shelf}/merit" if d.propeller is not None else "merit",
        "Figure of merit",
    )
    if d.propeller is None:
        return Unknown(key, label, ("the propeller",))
    part, chosen = d.propeller.part, build.site.spreads.figure_of_merit
    if part.figure_of_merit is not None:
        own = part.figure_of_merit.spread or 0.05
        where = d.propeller.shelf_where.at("figure_of_merit")
        return leaf(
            key, label, part.figure_of_merit.value, "1", own=own, basis="maker", where=where
        )
    if part.diameter is None or not 0.03 <= part.diameter.value <= 0.24:
        return Unknown(key, label, ("a figure of merit of the propeller",))
    value = small_propeller_merit(part.diameter.value)
    share = chosen.value if chosen is not None else MERIT_LOG_SPREAD
    note = told(
        "from its diameter; static tests of small propellers, spread of ",
        PlainShare(share),
        " from unit to unit and size to size",
    )
    return leaf(key, label, value, "1", own=value * share, basis="estimate", note=note)


def _bench(
    b: BenchRows | None, there: Air, thrust: MaybeFigure, key: str, rotors: Figure
) -> tuple[MaybeFigure, MaybeFigure, MaybeFigure, MaybeFigure]:
    """By the bench table: current and throttle of one motor on its volts, its speed, and the power
    of all motors.
    """
    ends = {
        "bench-current": "Current of one motor on the bench's volts",
        "bench-throttle": "Throttle on the bench's volts",
        "speed": "Speed at hover",
        "bench-power": "Hover power by the bench table",
    }
    if b is None:
        gone = ("a bench table of this motor with this propeller",)
        nothing = [Unknown(f"{key}/{e}", n, gone) for e, n in ends.items()]
        return nothing[0], nothing[1], nothing[2], nothing[3]
    label = "Thrust wanted, in the bench's air"
    wanted = apply(
        f"{key}/bench-thrust", label, formula(table_thrust), thrust, there.density, b.density
    )
    shown = apply(
        f"{key}/bench-reading",
        f"{label}, as it reads",
        formula(thrust_as_read),
        wanted,
        b.thrust_scale,
    )
    read = apply(
        f"{key}/bench-read",
        "Current to read at it",
        formula(bench_current, reach=monotone_reach),
        shown,
        *b.currents,
    )
    each = apply(
        f"{key}/bench-current",
        ends["bench-current"],
        formula(true_current),
        read,
        b.current_scale,
        shape="lognormal",
    )
    one = apply(f"{key}/bench-one", "Power of one motor", formula(electrical_load), b.volts, each)
    power = apply(
        f"{key}/bench-power",
        ends["bench-power"],
        formula(all_rotors),
        one,
        rotors,
        shape="lognormal",
        note=_BENCH_NOTE,
    )
    found: list[MaybeFigure] = []
    for end, how, points, lacks in (
        ("bench-throttle", bench_throttle, b.throttles, "throttle in every row of the bench table"),
        ("speed", bench_speed, b.speeds, "speed in every row of the bench table"),
    ):
        gap = Unknown(f"{key}/{end}", ends[end], (lacks,))
        found.append(
            apply(f"{key}/{end}", ends[end], formula(how, reach=monotone_reach), shown, *points)
            if points
            else gap
        )
    return each, found[0], found[1], power


def _theory(build: Build, d: Drive, ideal: MaybeFigure, key: str, rotors: Figure) -> MaybeFigure:
    """Electrical power of all motors by momentum theory."""
    shaft = apply(
        f"{key}/shaft", "Shaft power of one rotor", formula(shaft_power), ideal, _merit(build, d)
    )
    usual, chosen = DRIVE_EFFICIENCY, build.site.spreads.drive_efficiency
    own = usual[0] * chosen.value if chosen is not None else usual[1]
    label = "Efficiency of motor and speed controller"
    note = "common practice, no source"
    efficiency = leaf(
        "drive-efficiency", label, usual[0], "1", own=own, basis="estimate", note=note
    )
    one = apply(
        f"{key}/theory-one",
        "Electrical power of one motor",
        formula(electrical_power),
        shaft,
        efficiency,
    )
    label = "Hover power by momentum theory"
    return apply(
        f"{key}/theory-power",
        label,
        formula(all_rotors),
        one,
        rotors,
        shape="lognormal",
        note=_THEORY_NOTE,
    )


def hover(build: Build, d: Drive, air: Air, mass: MaybeFigure, key: str) -> Hover:
    """Hover of the build at a mass (kg)."""
    rotors = constant(f"{build.name}/rotors", "Number of rotors", float(d.rotors), "1")
    if not d.rotors:
        missing = ("motors",)
        gone = Unknown(f"{key}/thrust", "Thrust of one rotor", missing)
        return Hover(gone, *(Unknown(f"{key}/power", "Hover power", missing),) * 8, False)
    thrust = apply(f"{key}/thrust", "Thrust of one rotor", formula(thrust_for_mass), mass, rotors)
    alike = "Thrust of one rotor that takes as much in clear air"
    taken = by_wash(build, thrust, f"{key}/clear-air", alike, thrust_in_clear_air)
    area = _area(build, d)
    loading = apply(f"{key}/disc-loading", "Disc loading", formula(disc_loading), thrust, area)
    ideal = apply(
        f"{key}/ideal",
        "Ideal power of one rotor",
        formula(ideal_hover_power),
        taken,
        air.density,
        area,
    )
    theory = _theory(build, d, ideal, key, rotors)
    current, throttle, speed, power = _bench(d.bench, air, taken, key, rotors)
    known = isinstance(power, Figure)
    return Hover(
        thrust,
        loading,
        ideal,
        theory,
        current,
        power,
        throttle,
        speed,
        power if known else theory,
        known,
    )
