"""Hover of one aircraft two ways: from the motor's bench table, and from momentum theory with a figure of merit."""

from dataclasses import dataclass

from builder.compute.air import Air
from builder.compute.figure import Figure, Known, Unknown, apply, constant, formula, leaf
from builder.compute.formulas.bench_table import bench_current, bench_throttle
from builder.compute.formulas.electronics import electrical_load
from builder.compute.formulas.flying import all_rotors, bench_full_thrust, table_thrust, throttle_from_bench
from builder.compute.formulas.rotor import (
    disc_area,
    electrical_power,
    ideal_hover_power,
    shaft_power,
    small_propeller_merit,
    thrust_for_mass,
)
from builder.compute.formulas.rotor_scaling import disc_loading
from builder.compute.pack_volts import pack_volts
from builder.model.build import Build, Fitted
from builder.model.kinds import Frame, Motor, Propeller
from builder.model.kinds.drive import BenchTable

MERIT_LOG_SPREAD = 0.21  # of small_propeller_merit; see its docstring
DRIVE_EFFICIENCY = (0.75, 0.06)  # motor and speed controller together at hover (common practice, no source)
_BENCH_SHARE = 0.04
_STANDARD_DENSITY = 1.225


@dataclass(frozen=True, eq=False)
class Drive:
    """What turns: how many rotors, motor, propeller, and the bench table of the two if the shelf has one."""

    rotors: int
    motor: Fitted | None
    propeller: Fitted | None
    table: BenchTable | None
    table_index: int


@dataclass(frozen=True, eq=False)
class Hover:
    """Hover figures. `power` is electrical, all motors, at the volts of the pack; bench where it reaches, else theory."""

    thrust_each: Known
    disc_loading: Known
    ideal_power: Known
    theory_power: Known
    bench_power: Known
    power: Known
    throttle: Known
    full_thrust: Known
    from_bench: bool


def drive(build: Build) -> Drive:
    """The build's motors and propellers."""
    motors, propellers = build.of_kind(Motor), build.of_kind(Propeller)
    motor, propeller = next(iter(motors), None), next(iter(propellers), None)
    table, index = None, -1
    if motor is not None and propeller is not None and isinstance(motor.part, Motor):
        usable = [(i, t) for i, t in enumerate(motor.part.bench) if t.propeller == propeller.shelf and len(t.rows) >= 2]
        if usable:  # of several volts, the table nearest to the packs' nominal volts
            volts = [p.nominal for p in pack_volts(build)]
            near = sum(volts) / len(volts) if volts else usable[0][1].volts.value
            index, table = min(usable, key=lambda it: (abs(it[1].volts.value - near), it[0]))
    return Drive(motor.count if motor is not None else 0, motor, propeller, table, index)


def _area(build: Build, d: Drive) -> Known:
    key = f"{build.name}/hover/disc"
    if d.propeller is None or not isinstance(d.propeller.part, Propeller) or d.propeller.part.diameter is None:
        return Unknown(key, "Area of one disc", ("diameter of the propeller",))
    diameter = constant(
        f"shelf/{d.propeller.shelf}/diameter", "Diameter of the propeller", d.propeller.part.diameter.value, "m"
    )
    return apply(key, "Area of one disc", formula(disc_area), diameter)


def _merit(d: Drive) -> Known:
    key = f"shelf/{d.propeller.shelf}/merit" if d.propeller is not None else "merit"
    part = d.propeller.part if d.propeller is not None else None
    if not isinstance(part, Propeller):
        return Unknown(key, "Figure of merit", ("the propeller",))
    if part.figure_of_merit is not None and d.propeller is not None:
        given = part.figure_of_merit
        return leaf(
            key,
            "Figure of merit",
            given.value,
            "1",
            own=given.spread or 0.05,
            basis="maker",
            where=d.propeller.shelf_where.at("figure_of_merit"),
        )
    if part.diameter is None or not 0.03 <= part.diameter.value <= 0.24:
        return Unknown(key, "Figure of merit", ("a figure of merit of the propeller",))
    value = small_propeller_merit(part.diameter.value)
    return leaf(
        key,
        "Figure of merit",
        value,
        "1",
        own=value * MERIT_LOG_SPREAD,
        basis="estimate",
        note="from its diameter; small propellers in static tests, spread of 21 % from unit to unit and size to size",
    )


def _points(build: Build, d: Drive, what: str) -> tuple[Figure, ...]:
    """The bench table as figures: thrust, then current or throttle, row by row. One error common to the whole table."""
    assert d.table is not None and d.motor is not None  # callers ask only with a table
    share = build.site.spreads.bench_table.value if build.site.spreads.bench_table is not None else _BENCH_SHARE
    out = []
    for i, row in enumerate(sorted(d.table.rows, key=lambda r: r.thrust.value)):
        name = f"shelf/{d.motor.shelf}/bench/{d.table_index + 1}/{i + 1}"
        where = d.motor.shelf_where.at("bench", d.table_index, "rows", i)
        out.append(
            leaf(
                f"{name}/thrust",
                f"Bench row {i + 1}, thrust",
                row.thrust.value,
                "N",
                own=row.thrust.value * share,
                where=where.at("thrust"),
            )
        )
        if what == "current":
            out.append(
                leaf(
                    f"{name}/current",
                    f"Bench row {i + 1}, current",
                    row.current.value,
                    "A",
                    own=row.current.value * share,
                    where=where.at("current"),
                )
            )
        else:
            value = row.throttle.value if row.throttle is not None else 0.0
            out.append(constant(f"{name}/throttle", f"Bench row {i + 1}, throttle", value, "1"))
    return tuple(out)


def _bench(
    build: Build, d: Drive, air: Air, thrust: Known, volts: Known, key: str, rotors: Figure
) -> tuple[Known, Known, Known]:
    """Power of all motors, throttle, and full thrust of all motors from the bench table."""
    names = (
        ("power", "Hover power by the bench table"),
        ("throttle", "Hover throttle"),
        ("full-thrust", "Full thrust"),
    )
    if d.table is None:
        gone = ("a bench table of this motor with this propeller",)
        return tuple(Unknown(f"{key}/bench-{n}", label, gone) for n, label in names)  # type: ignore[return-value]
    table_volts = constant(f"{key}/bench-volts", "Volts of the bench table", d.table.volts.value, "V")
    known = constant(
        "air/standard-density", "Density of the bench's air", _STANDARD_DENSITY, "kg/m³", "standard atmosphere"
    )
    wanted = apply(
        f"{key}/bench-thrust", "Thrust wanted, in the bench's air", formula(table_thrust), thrust, air.density, known
    )
    current = apply(
        f"{key}/bench-current",
        "Current of one motor by the bench table",
        formula(bench_current),
        wanted,
        *_points(build, d, "current"),
    )
    one = apply(f"{key}/bench-one", "Power of one motor", formula(electrical_load), table_volts, current)
    power = apply(f"{key}/bench-power", names[0][1], formula(all_rotors), one, rotors)
    has_throttle = all(r.throttle is not None for r in d.table.rows)
    throttle: Known = Unknown(f"{key}/throttle", names[1][1], ("throttle in the bench table",))
    if has_throttle:
        at_table = apply(
            f"{key}/bench-throttle",
            "Throttle on the bench's volts",
            formula(bench_throttle),
            wanted,
            *_points(build, d, "throttle"),
        )
        throttle = apply(
            f"{key}/throttle",
            names[1][1],
            formula(throttle_from_bench),
            at_table,
            table_volts,
            volts,
            shape="lognormal",
            note="throttle scales as volts: bench volts over the pack's under load",
        )
    top = max((r.thrust.value for r in d.table.rows), default=0.0)
    share = build.site.spreads.bench_table.value if build.site.spreads.bench_table is not None else _BENCH_SHARE
    best = leaf(
        f"shelf/{d.motor.shelf if d.motor else ''}/bench/{d.table_index + 1}/top",
        "Largest thrust on the bench",
        top,
        "N",
        own=top * share,
    )
    full = apply(
        f"{key}/full-thrust",
        names[2][1],
        formula(bench_full_thrust),
        best,
        table_volts,
        volts,
        air.density,
        known,
        rotors,
    )
    return power, throttle, full


def hover(build: Build, d: Drive, air: Air, mass: Known, volts: Known, key: str) -> Hover:
    """Hover of the build at a mass (kg) on given pack volts."""
    rotors = constant(f"{build.name}/rotors", "Number of rotors", float(d.rotors), "1")
    if not d.rotors:
        missing = ("motors",)
        nothing = [
            Unknown(f"{key}/{n}", label, missing)
            for n, label in (("thrust", "Thrust of one rotor"), ("power", "Hover power"))
        ]
        return Hover(nothing[0], *(nothing[1],) * 7, False)
    thrust = apply(f"{key}/thrust", "Thrust of one rotor", formula(thrust_for_mass), mass, rotors)
    area = _area(build, d)
    loading = apply(f"{key}/disc-loading", "Disc loading", formula(disc_loading), thrust, area)
    ideal = apply(f"{key}/ideal", "Ideal power of one rotor", formula(ideal_hover_power), thrust, air.density, area)
    shaft = apply(f"{key}/shaft", "Shaft power of one rotor", formula(shaft_power), ideal, _merit(d))
    efficiency = leaf(
        "drive-efficiency",
        "Efficiency of motor and speed controller",
        DRIVE_EFFICIENCY[0],
        "1",
        own=DRIVE_EFFICIENCY[1],
        basis="estimate",
        note="common practice, no source",
    )
    one = apply(f"{key}/theory-one", "Electrical power of one motor", formula(electrical_power), shaft, efficiency)
    theory = apply(
        f"{key}/theory-power", "Hover power by momentum theory", formula(all_rotors), one, rotors, shape="lognormal"
    )
    bench, throttle, full = _bench(build, d, air, thrust, volts, key, rotors)
    best = bench if isinstance(bench, Figure) else theory
    return Hover(thrust, loading, ideal, theory, bench, best, throttle, full, isinstance(bench, Figure))


def ducts(build: Build) -> bool:
    """Whether the frame's rotors turn in ducts, whose gain the theory here leaves out."""
    return any(f.part.ducts for f in build.of_kind(Frame))
