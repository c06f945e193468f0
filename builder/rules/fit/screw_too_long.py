"""A screw that reaches what lies behind its thread.

Checks: length less all that it passes through, against the depth of the thread. It stays 0.3 mm
clear of a winding, and does not touch what is behind any other thread.
Why: a screw that touches the winding shorts it to the frame or cuts it; the motor and its channel
burn.
Example: M2 x 8 through an arm of 3.5 mm into a motor with 3 mm of thread.
Mend: take the next shorter screw, or a washer under its head.
Source: 0.3 mm is common practice, no source
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Unknown
from builder.diagnostics.finding import Severity, Signal
from builder.load.assumed import assumed
from builder.rules.compare import EXACT
from builder.rules.fit._airframe import motors
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
CLEAR = assumed("mounting/screw-clear")


def check(case: Case) -> Iterator[Outcome]:
    held = {row.motor for row in case.results.screws}
    for fitted, _ in motors(case.build):
        if fitted.key not in held:
            yield NotJudged(f"screws of {fitted.key}: none are listed under screws", fitted.where)
    for row in case.results.screws:
        room = row.room
        if isinstance(room, Unknown):
            for missing in room.missing:
                yield NotJudged(missing, row.where)
        elif row.motor and room.value < CLEAR - EXACT:
            left = (
                "reaches the winding" if room.value <= 0 else say("ends {} from the winding", room)
            )
            yield Found(
                say(
                    "{} at {} {} of {}; {} are wanted.",
                    row.name,
                    row.place,
                    left,
                    row.motor,
                    given(CLEAR, "m"),
                ),
                "Take a shorter screw, or a washer under its head.",
                row.where,
                signal=Signal.WARNING,
            )
        elif not row.motor and room.value < -EXACT:
            yield Found(
                say(
                    "{} at {} is {} longer than its place is deep.",
                    row.name,
                    row.place,
                    made(-room.value, "m", room.key),
                ),
                "Take a shorter screw, or a washer under its head.",
                row.where,
            )
        else:
            yield Judged()
