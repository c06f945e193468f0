"""A part that a propeller can touch.

Checks: the way from each part, antenna, battery, plate and arm to the nearest disc. Blades bend up and down by 5 % of
their length. Places and sizes have a spread: from that comes the chance that a blade touches. One of 20 is a remark,
one of two a fault. In a frame with ducts only what is above or below a disc counts.
Why: a blade that strikes a part breaks, and a cut battery burns.
Example: a battery whose rear corner is 2 mm from the disc of a rear motor.
Mend: move the part away from that propeller, or take smaller propellers.
Source: geometry; spread, bend and limits are common practice, no source
"""

from collections.abc import Iterator

from builder.compute.geometry.clearances import discs
from builder.compute.geometry.touching import DiscNearness, near_discs
from builder.diagnostics.finding import Severity, Signal
from builder.load.assumed import assumed_list
from builder.rules.fit._airframe import motors, propellers
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import made, say, times_of

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_WORTH_A_WORD, _TOO_MUCH = assumed_list("mounting/disc-chance")
_MEND = "Move it away from that propeller, or take smaller propellers."


def _found(near: DiscNearness) -> Found:
    if near.room > 0.0:
        way = say("is {} from the disc of motor {}", made(near.room, "m"), near.motor)
    else:
        way = say("stands {} inside the disc of motor {}", made(-near.room, "m"), near.motor)
    text = say(
        "{} {}. By the spread of sizes and places, a blade touches it in {}.",
        near.body.name,
        way,
        times_of(near.chance),
    )
    severity = None if near.chance >= _TOO_MUCH else Severity.REMARK
    return Found(text, _MEND, near.body.where, severity)


def check(case: Case) -> Iterator[Outcome]:
    for fitted, motor in motors(case.build):
        if motor.height is None and discs(case.build):
            yield NotJudged(f"height of {fitted.key}", fitted.shelf_where)
            return
    near_by = near_discs(case.build)
    if not near_by:
        if propellers(case.build) and not discs(case.build):
            lacks = "where the discs are: motors of the frame, diameter of the propeller"
            yield NotJudged(lacks, case.build.where("parts"))
        return
    for near in near_by:
        if near.chance >= _WORTH_A_WORD:
            yield _found(near)
        elif near.body.solid is None:
            yield NotJudged(near.body.lacks, near.body.shelf_where)
        else:
            yield Judged()
