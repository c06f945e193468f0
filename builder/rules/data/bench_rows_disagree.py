"""A bench test that disagrees with itself or with the motor.

Checks: the speed of each row against what the motor's speed constant allows at the volts of the
row. Thrust and current grow with throttle. The volts of the test, and the cells of its largest
current, are compared with the cells that the motor takes.
Why: hover, time in the air and currents are read off this table.
Example: 52000 rpm at 15 V by a motor of 3000 rpm/V.
Mend: look at the table again; a digit or a column is wrong.
Source: back-EMF of a motor: no speed above speed constant times volts (any textbook, from memory)
"""

from collections.abc import Iterator
from itertools import pairwise

from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed, assumed_list
from builder.model.build import Fitted
from builder.model.kinds import Motor
from builder.model.kinds.drive import BenchRow, BenchTable
from builder.rules.compare import clash
from builder.rules.fit._airframe import motors
from builder.rules.rule import Case, Judged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.REMARK
YIELDS_TO = (
    "power/motor-cells",
    "power/motor-current",
    "power/propeller-overspeed",
)
_KV_OFF = assumed("bench tables/speed-constant")
_FULL, _EMPTY = assumed_list("bench tables/cell-volts")
_SLACK = assumed("bench tables/slack")
_TABLE = "Look at the table again; a digit or a column is wrong."


def _speeds(fitted: Fitted, motor: Motor, at: int, table: BenchTable) -> Iterator[Outcome]:
    rows = [(i, r) for i, r in enumerate(table.rows) if r.rpm is not None]
    if motor.kv is None or not rows:
        return
    for i, row in rows:
        volts = row.volts.value if row.volts is not None else table.volts.value
        most = motor.kv.value * volts
        if row.rpm is None or row.rpm.value <= most * _KV_OFF:
            continue
        text = say(
            "A row of {} turns at {}; {} allows {} at {}.",
            fitted.key,
            given(row.rpm.value, "rad/s"),
            given(motor.kv.value, "rad/(V.s)"),
            made(most, "rad/s"),
            given(volts, "V"),
        )
        where = fitted.shelf_where.at("bench", at, "rows", i, "rpm")
        yield clash(text, _TABLE, where, fitted.shelf_where.at("kv"))
        return
    yield Judged()


def _grows(fitted: Fitted, at: int, rows: tuple[BenchRow, ...]) -> Iterator[Outcome]:
    known = [(i, r) for i, r in enumerate(rows) if r.throttle is not None]
    known.sort(key=lambda pair: pair[1].throttle.value if pair[1].throttle is not None else 0.0)
    for (i, low), (j, high) in pairwise(known):
        for name in ("current", "thrust"):
            before, after = getattr(low, name).value, getattr(high, name).value
            if after >= before * _SLACK:
                continue
            text = f"In the bench test of {fitted.key} {name} falls while throttle grows."
            where = fitted.shelf_where.at("bench", at, "rows")
            yield clash(text, _TABLE, where.at(j, name), where.at(i, name))
            return
    if known:
        yield Judged()


def _cells(fitted: Fitted, motor: Motor) -> Iterator[Outcome]:
    cells, at = motor.cells, fitted.shelf_where
    if cells is None:
        return
    for i, table in enumerate(motor.bench):
        volts = table.volts.value
        if _EMPTY * cells.low <= volts <= _FULL * cells.high:
            yield Judged()
            continue
        text = say("{} was tested at {}, and takes {}.", fitted.key, given(volts, "V"), cells.label)
        yield clash(text, "Check both.", at.at("bench", i, "volts"), at.at("cells"))
    most = motor.peak.at if motor.peak is not None else None
    if most is None:
        return
    if cells.low <= most.low and most.high <= cells.high:
        yield Judged()
        return
    of_peak = (
        f"The largest current of {fitted.key} is for {most.label}, and it takes {cells.label}."
    )
    yield clash(of_peak, "Check both.", at.at("peak"), at.at("cells"))


def check(case: Case) -> Iterator[Outcome]:
    for fitted, motor in motors(case.build):
        yield from _cells(fitted, motor)
        for i, table in enumerate(motor.bench):
            yield from _speeds(fitted, motor, i, table)
            yield from _grows(fitted, i, table.rows)
