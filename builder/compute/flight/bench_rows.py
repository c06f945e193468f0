"""A motor's bench table as figures: its rows in order of thrust, its air, and one error common to
all its rows.

A stand that reads 4 % high reads 4 % high in every row, and in every table whose source names it,
so that error is a figure of its own (a scale whose middle is 1) and does not average out. What is
left is the scatter of single readings.
"""

from dataclasses import dataclass

from builder.compute.figures.figure import Figure, MaybeFigure, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.flight.air import altitude_of, standard_sea_level, warmth_of
from builder.compute.flight.bench_readings import BenchReading, readings_of_table
from builder.compute.formulas.constants import SEA_LEVEL_DENSITY
from builder.compute.formulas.rotors.air import air_density, field_pressure, kelvin
from builder.compute.formulas.rotors.bench_table import (
    current_at_same_power,
    true_current,
    true_thrust,
)
from builder.compute.formulas.rotors.rotor_scaling import throttle_at_volts
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import Build, FittedAs
from builder.model.kinds import Motor
from builder.model.kinds.drive import BenchTable

SCALE_SHARE = assumed("bench tables/scale")
SCATTER_SHARE = assumed("bench tables/scatter")
_SPEED_SHARE = assumed("bench tables/speed")


@dataclass(frozen=True, eq=False)
class BenchRows:
    """One table. Each tuple holds thrust (N), then the other reading, row by row, thrust rising."""

    name: str
    volts: Figure
    density: MaybeFigure
    thrust_scale: Figure
    current_scale: Figure
    currents: tuple[MaybeFigure, ...]
    throttles: tuple[MaybeFigure, ...]
    speeds: tuple[MaybeFigure, ...]
    top_thrust: MaybeFigure
    top_volts: Figure
    top_current: MaybeFigure
    top_current_volts: Figure
    top_speed: Figure | None


def _density(name: str, table: BenchTable, at: Where) -> MaybeFigure:
    """Density of the air on the bench, from its altitude and temperature where the table says them."""
    if table.altitude is None and table.air is None:
        note = "standard atmosphere, for want of the bench's altitude and temperature"
        return constant(
            "air/standard-density", "Density of the bench's air", SEA_LEVEL_DENSITY, "kg/m³", note
        )
    high = altitude_of(f"{name}/altitude", "bench", table.altitude, at.at("altitude"), 20.0)
    warm = warmth_of(f"{name}/air", "Air of the bench", table.air, at.at("air"), 2.0)
    pressure = apply(
        f"{name}/pressure",
        "Pressure on the bench",
        formula(field_pressure),
        high,
        standard_sea_level(),
    )
    absolute = apply(f"{name}/kelvin", "Absolute temperature on the bench", formula(kelvin), warm)
    return apply(
        f"{name}/density", "Density of the bench's air", formula(air_density), pressure, absolute
    )


def _currents(name: str, rows: tuple[BenchReading, ...], volts: Figure) -> tuple[MaybeFigure, ...]:
    out: list[MaybeFigure] = []
    for i, row in enumerate(rows):
        key = f"{name}/{i + 1}"
        read: MaybeFigure = leaf(
            f"{key}/current",
            f"{row.label}, current",
            row.current,
            "A",
            own=row.current * SCATTER_SHARE,
            where=row.where.at("current"),
            note="scatter of one reading",
        )
        if row.volts != volts.value:
            there = constant(f"{key}/volts", f"{row.label}, volts", row.volts, "V")
            label = f"{row.label}, current at the same power on the table's volts"
            read = apply(
                f"{key}/current-on-volts", label, formula(current_at_same_power), read, there, volts
            )
        out += [_thrust(name, i, row), read]
    return tuple(out)


def _thrust(name: str, i: int, row: BenchReading) -> Figure:
    return leaf(
        f"{name}/{i + 1}/thrust",
        f"{row.label}, thrust",
        row.thrust,
        "N",
        where=row.where.at("thrust"),
    )


def _throttles(name: str, rows: tuple[BenchReading, ...], volts: Figure) -> tuple[MaybeFigure, ...]:
    """Throttle beside each thrust; empty where a row lacks it."""
    out: list[MaybeFigure] = []
    for i, row in enumerate(rows):
        if row.throttle is None:
            return ()
        key = f"{name}/{i + 1}"
        read: MaybeFigure = leaf(
            f"{key}/throttle",
            f"{row.label}, throttle",
            row.throttle,
            "1",
            where=row.where.at("throttle"),
        )
        if row.volts != volts.value:
            there = constant(f"{key}/volts", f"{row.label}, volts", row.volts, "V")
            label = f"{row.label}, throttle on the table's volts"
            read = apply(
                f"{key}/throttle-on-volts", label, formula(throttle_at_volts), read, volts, there
            )
        out += [_thrust(name, i, row), read]
    return tuple(out)


def _speeds(name: str, rows: tuple[BenchReading, ...]) -> tuple[MaybeFigure, ...]:
    """Speed beside each thrust; empty where a row lacks it."""
    out: list[MaybeFigure] = []
    for i, row in enumerate(rows):
        if row.speed is None:
            return ()
        label, own = f"{row.label}, speed", _SPEED_SHARE * row.speed
        read = leaf(
            f"{name}/{i + 1}/speed", label, row.speed, "rad/s", own=own, where=row.where.at("rpm")
        )
        out += [_thrust(name, i, row), read]
    return tuple(out)


def _scale(name: str, what: str, share: float) -> Figure:
    return leaf(
        f"{name}/{what}-scale",
        f"The bench's scale of {what}",
        1.0,
        "1",
        own=share,
        basis="estimate",
        note="one error common to all rows, and to all tables of that stand",
    )


def bench(build: Build, motor: FittedAs[Motor], index: int) -> BenchRows:
    """The motor's bench table of that index. Its figures belong to the shelf: builds that use it
    share its errors.
    """
    table, at = motor.part.bench[index], motor.shelf_where.at("bench", index)
    given = build.site.spreads.bench_table
    share = given.value if given is not None else SCALE_SHARE
    name = f"shelf/{motor.shelf}/bench/{index + 1}"
    rows = readings_of_table(table, at)
    volts = constant(f"{name}/volts", "Volts of the bench table", table.volts.value, "V")
    stand = f"stand/{table.source}" if table.source else name
    thrust_scale, current_scale = _scale(stand, "thrust", share), _scale(stand, "current", share)
    strongest, thirstiest = rows[-1], max(rows, key=lambda r: r.current)
    read = leaf(
        f"{name}/top",
        "Largest thrust read",
        strongest.thrust,
        "N",
        where=strongest.where.at("thrust"),
    )
    drawn = leaf(
        f"{name}/top-read",
        "Largest current read",
        thirstiest.current,
        "A",
        own=thirstiest.current * SCATTER_SHARE,
        where=thirstiest.where.at("current"),
        note="scatter of one reading",
    )
    return BenchRows(
        name,
        volts,
        _density(name, table, at),
        thrust_scale,
        current_scale,
        _currents(name, rows, volts),
        _throttles(name, rows, volts),
        _speeds(name, rows),
        apply(
            f"{name}/top-thrust",
            "Largest thrust on the bench",
            formula(true_thrust),
            read,
            thrust_scale,
        ),
        constant(f"{name}/top-volts", "Volts at the largest thrust", strongest.volts, "V"),
        apply(
            f"{name}/top-current",
            "Largest current on the bench",
            formula(true_current),
            drawn,
            current_scale,
        ),
        constant(
            f"{name}/top-current-volts", "Volts at the largest current", thirstiest.volts, "V"
        ),
        _top_speed(name, strongest),
    )


def _top_speed(name: str, row: BenchReading) -> Figure | None:
    if row.speed is None:
        return None
    label = "Speed at the largest thrust on the bench"
    return leaf(
        f"{name}/top-speed",
        label,
        row.speed,
        "rad/s",
        own=_SPEED_SHARE * row.speed,
        where=row.where.at("rpm"),
    )
