"""A count of magnets that the software is told, and that the motor has not.

Checks: `poles` of the setup against the magnets of each motor.
Why: the software takes the speed of the motors from it. With a wrong count its filters sit at
frequencies where nothing shakes: the motors run hot, and one may burn in the air.
Example: 14 told for a motor of 12 magnets.
Mend: count the magnets of the bell, and set that.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.rules.compare import clash
from builder.rules.fit._airframe import motors
from builder.rules.rule import Case, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.CAUTION


def check(case: Case) -> Iterator[Outcome]:
    told, where = case.build.source.setup.poles, case.build.where("setup", "poles")
    if told is None:
        return
    for fitted, motor in motors(case.build):
        if motor.poles is None:
            yield NotJudged(f"magnets of {fitted.key}", fitted.shelf_where)
        elif motor.poles == told:
            yield Judged()
        else:
            text = f"The software is told {told} magnets; {fitted.key} has {motor.poles}."
            hint = "Count the magnets of the bell, and set that."
            yield clash(text, hint, where, fitted.shelf_where.at("poles"))
