"""Board orientation disagrees with its place.

Checks: the turn and face that the software is told against the yaw and face of the control board in
the build.
Why: an aircraft that takes its left for its front flips over as soon as it leaves the ground.
Example: the board is mounted at 90 deg and the orientation says 0 deg.
Mend: set the orientation to the board's place, then tilt and turn the aircraft by hand and watch.
Source: common practice, no source
"""

from collections.abc import Iterator
from math import degrees, radians

from builder.diagnostics.finding import Severity, Signal
from builder.load.assumed import assumed
from builder.model.kinds import CombinedBoard, FlightController
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import made, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.DANGER
_SAME = assumed("mounting/same-turn")


def check(case: Case) -> Iterator[Outcome]:
    if not case.build.of_kind(FlightController, CombinedBoard):
        return
    told, found = case.build.source.setup.orientation, case.results.settings
    where = case.build.where("setup", "orientation")
    if told is None:
        yield NotJudged(
            "orientation of the control board in the software is not said",
            case.build.where("setup"),
        )
        return
    if told.face != found.board_face:
        message = f"The board lies face {found.board_face}; the software is told face {told.face}."
        yield Found(message, "Set the face as the board lies.", where)
        return
    leans = [a for a in (told.pitch, told.roll) if a is not None and abs(degrees(a.value)) > _SAME]
    if leans:
        yield NotJudged("whether the control board leans as the software is told", where)
    if found.board_yaw is None or told.yaw is None:
        yield NotJudged("yaw of the control board, or of its orientation, is not said", where)
        return
    wanted = degrees(told.yaw.value)
    apart = abs((wanted - found.board_yaw + 180) % 360 - 180)
    if apart > _SAME:
        lies, said = made(radians(found.board_yaw), "rad"), made(radians(wanted % 360), "rad")
        message = say("The board is turned {}; the software is told {}.", lies, said)
        yield Found(
            message,
            "Set the orientation to the board's place, then tilt and turn it by hand.",
            where,
        )
    else:
        yield Judged()
