"""A bench test that its motor, or any rotor, cannot give.

Checks: at full throttle the volts of the speed and of the winding against those of the test. No row
draws less than the motor draws without a propeller, once it turns as fast. No row lifts more than
an ideal rotor of that disc lifts by its electrical power.
Why: hover, time in the air and currents are read off this table.
Example: 298 g on a disc of 76 mm by 20 W.
Mend: look at the table, the speed constant, the winding and the disc again; one of them is a slip.
Source: equation of the motor (any textbook, from memory); momentum theory, Leishman, ch. 2
"""

from collections.abc import Iterator
from math import pi

from builder.compute.formulas.rotors.rotor import ideal_hover_power
from builder.diagnostics.finding import Severity
from builder.diagnostics.where import Where
from builder.load.assumed import assumed, assumed_list
from builder.model.kinds import Motor
from builder.model.kinds.drive import BenchRow, BenchTable
from builder.rules.compare import clash
from builder.rules.fit._airframe import motor_propeller_pairs, motors
from builder.rules.rule import Case, Judged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.REMARK
YIELDS_TO = ("data/bench-rows-disagree",)
_LEAST, _MOST = assumed_list("bench tables/balance")
_FULL = assumed("bench tables/full-throttle")
_AIR = assumed("bench tables/air")
_AGAIN = "Look at both again; one of them is a slip."


def _volts(table: BenchTable, row: BenchRow) -> float:
    return row.volts.value if row.volts is not None else table.volts.value


def _balance(
    key: str, motor: Motor, table: BenchTable, at: Where, shelf: Where
) -> Iterator[Outcome]:
    ohms = motor.resistance.value if motor.resistance is not None else None
    for i, row in enumerate(table.rows):
        full = row.throttle is not None and row.throttle.value >= _FULL
        if not full or row.rpm is None or motor.kv is None or ohms is None:
            continue
        volts = _volts(table, row)
        needed = row.rpm.value / motor.kv.value + row.current.value * ohms
        if _LEAST * volts <= needed <= _MOST * volts:
            yield Judged()
            continue
        text = say(
            "At full throttle speed and winding of {} take {}; the test had {}.",
            key,
            made(needed, "V"),
            given(volts, "V"),
        )
        yield clash(text, _AGAIN, at.at("rows", i), shelf.at("kv"))


def _unloaded(
    key: str, motor: Motor, table: BenchTable, at: Where, shelf: Where
) -> Iterator[Outcome]:
    idle = motor.no_load
    if idle is None or motor.kv is None or idle.volts is None:
        return
    fast = [(i, r) for i, r in enumerate(table.rows) if r.rpm is not None]
    fast = [(i, r) for i, r in fast if r.rpm and r.rpm.value >= motor.kv.value * idle.volts]
    slip = next(((i, r) for i, r in fast if r.current.value < idle.current), None)
    if slip is None:
        yield from (Judged(),) if fast else ()
        return
    i, row = slip
    text = say(
        "{} draws {} with a propeller, and {} without one at a lower speed.",
        key,
        given(row.current.value, "A"),
        given(idle.current, "A"),
    )
    yield clash(text, _AGAIN, shelf.at("no_load"), at.at("rows", i, "current"))


def _lifts(key: str, disc: float, table: BenchTable, at: Where, other: Where) -> Iterator[Outcome]:
    area = pi * disc**2 / 4.0
    for i, row in enumerate(table.rows):
        power = _volts(table, row) * row.current.value
        ideal = ideal_hover_power(row.thrust.value, _AIR, area)
        if ideal <= power:
            continue
        text = say(
            "A row of {} lifts by {} what an ideal rotor of that disc lifts by {}.",
            key,
            made(power, "W"),
            made(ideal, "W"),
        )
        yield clash(text, _AGAIN, at.at("rows", i), other)
        return
    yield Judged()


def check(case: Case) -> Iterator[Outcome]:
    for fitted, motor in motors(case.build):
        for i, table in enumerate(motor.bench):
            at = fitted.shelf_where.at("bench", i)
            yield from _balance(fitted.key, motor, table, at, fitted.shelf_where)
            yield from _unloaded(fitted.key, motor, table, at, fitted.shelf_where)
    for fitted, motor, turned, propeller in motor_propeller_pairs(case.build):
        for i, table in enumerate(motor.bench):
            if table.propeller != turned.shelf or propeller.diameter is None:
                continue
            at, disc = fitted.shelf_where.at("bench", i), turned.shelf_where.at("diameter")
            yield from _lifts(fitted.key, propeller.diameter.value, table, at, disc)
