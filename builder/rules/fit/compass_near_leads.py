"""A compass too near what carries the motors' current.

Checks: the place of each compass against the leads between battery and speed controller, the motors and
their leads: its keep-out, or 50 mm.
Why: forty amperes in a lead turn a compass by many degrees, and so do the magnets of a motor. Coming home then
goes the wrong way.
Example: a compass 20 mm above the pigtail.
Mend: put it on a mast away from both, and twist the leads.
Source: field of a long straight wire; 50 mm is common practice, no source
"""

from collections.abc import Iterator

from builder.compute.geometry.clearances import (
    Between,
    battery_leads,
    compasses,
    from_battery_leads,
)
from builder.compute.geometry.motor_leads import from_motor_leads
from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.rules.compare import EXACT
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.REMARK
_USUAL = assumed("mounting/compass-room")
_OF_BATTERY = "Put it further from the battery leads, and twist them."
_OF_MOTOR = "Put it further from the motors and their leads."


def _near(found: Between, least: float, hint: str) -> Outcome:
    if found.distance >= least - EXACT:
        return Judged()
    away, wanted = made(found.distance, "m"), given(least, "m")
    text = say("{} is {} from {}; {} are wanted.", found.first, away, found.second, wanted)
    return Found(text, hint, found.where)


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    for what in compasses(build):
        keepout = getattr(what.part, "keepout", None)
        least = keepout.value if keepout is not None else _USUAL
        leads, motors = from_battery_leads(build, what), from_motor_leads(build, what)
        if leads is not None:
            yield _near(leads, least, _OF_BATTERY)
        elif what.use.at is None:
            yield NotJudged(f"place of {what.key}", what.where)
        elif battery_leads(build):
            yield NotJudged("places of the pigtail and the speed controller", build.where("parts"))
        if motors is not None:
            yield _near(motors, least, _OF_MOTOR)
