"""A brushed motor on a speed controller for three phases, or the other way round.

Checks: the phases of each motor against those of each speed controller, where one of them is said. They
are compared with its own phase contacts and leads as well. Where none is said they have three.
Why: a brushed motor burns on a speed controller for three phases, and takes the controller with it.
Example: a motor of two phases on a speed controller that drives three.
Mend: take a motor and a speed controller that go together.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.model.build import Fitted, FittedAs
from builder.model.kinds import Motor, SpeedController
from builder.rules.compare import clash
from builder.rules.fit._airframe import motors
from builder.rules.rule import Case, Judged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
YIELDS_TO = ("wiring/phases-wrong",)


def _own(fitted: Fitted, motor: Motor) -> Iterator[Outcome]:
    at = fitted.shelf_where
    many = sum(p.role == "phase" for p in motor.pads.values())
    said = at.at("phases") if "phases" in motor.model_fields_set else at
    if many and many != motor.phases:
        text = f"{fitted.key} has {motor.phases} phases, and {many} phase contacts."
        yield clash(text, "Count its leads.", said, at.at("pads"))
    elif many:
        yield Judged()


def _unlike(fitted: Fitted, motor: Motor, drive: FittedAs[SpeedController]) -> Outcome:
    text = f"{fitted.key} has {motor.phases} phases; {drive.key} drives {drive.part.phases}."
    hint = "Take a motor and a speed controller that go together."
    return clash(text, hint, fitted.where, drive.where)


def check(case: Case) -> Iterator[Outcome]:
    for fitted, motor in motors(case.build):
        yield from _own(fitted, motor)
        for drive in case.build.of_kind(SpeedController):
            if drive.part.phases != motor.phases:
                yield _unlike(fitted, motor, drive)
            elif any("phases" in p.model_fields_set for p in (motor, drive.part)):
                yield Judged()
