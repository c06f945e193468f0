"""A motor whose field turns faster than the speed controller follows.

Checks: the speed of the motor without a propeller on each full battery, times its pairs of magnets,
against `electrical_rpm` of each speed controller.
Why: a speed controller that loses the place of the magnets stops the motor in the air.
Example: 14 magnets at 40000 rpm are 280000 turns of the field a minute; a controller for 200000
loses step.
Mend: take fewer cells, a motor with fewer magnets or a slower winding, or another controller.
Source: definition: turns of the field = turns of the shaft x pairs of magnets
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Figure
from builder.diagnostics.finding import Severity, Signal
from builder.model.kinds import SpeedController
from builder.rules.compare import clash
from builder.rules.fit._airframe import motors
from builder.rules.rule import Case, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    limited = [d for d in build.of_kind(SpeedController) if d.part.electrical_rpm is not None]
    for fitted, motor in motors(build) if limited else ():
        if motor.poles is None:
            yield NotJudged(f"magnets of {fitted.key}", fitted.shelf_where)
            continue
        pairs = motor.poles / 2
        for pack, flown in case.results.flight.packs.items():
            free = flown.speeds.no_load
            if not isinstance(free, Figure):
                what = f"speed of {fitted.key} on battery {pack}: its speed constant"
                yield NotJudged(what, fitted.shelf_where)
                continue
            for drive in limited:
                limit = drive.part.electrical_rpm
                if limit is None or free.value * pairs <= limit.value:
                    yield Judged()
                    continue
                text = say(
                    "On battery {} the field of {} turns at {}; {} follows {}.",
                    pack,
                    fitted.key,
                    made(free.value * pairs, "rad/s", free.key),
                    drive.key,
                    given(limit.value, "rad/s", f"shelf/{drive.shelf}/electrical_rpm"),
                )
                hint = "Take fewer cells, a slower motor, or another speed controller."
                other = drive.shelf_where.at("electrical_rpm")
                yield clash(text, hint, build.packs[pack].where, other)
