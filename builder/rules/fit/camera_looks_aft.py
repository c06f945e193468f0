"""A camera that sees the aircraft, or what lies behind it.

Checks: the place and the turn of each camera, against the middle of the frame and its front. One of several may
look elsewhere. A camera without a turn looks ahead.
Why: the pilot flies by this picture. A camera behind the middle shows boards and propellers, and one that looks aft
shows where the aircraft has been.
Example: a camera 60 mm behind the middle, or turned by 180 deg.
Mend: correct the sign of its place or its turn, or mount it at the front.
Source: common practice, no source
"""

from collections.abc import Iterator
from math import degrees

from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.model.build import FittedAs
from builder.model.kinds import Camera
from builder.rules.compare import EXACT
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import made, say

SEVERITY = Severity.REMARK
_BEHIND = assumed("mounting/camera-behind")
_ASIDE = assumed("mounting/camera-aside")


def _ahead(camera: FittedAs[Camera]) -> bool:
    turn = camera.use.yaw
    if turn is None:
        return True
    aside = (degrees(turn.value) + 180.0) % 360.0 - 180.0
    return abs(aside) <= _ASIDE


def _before(camera: FittedAs[Camera]) -> bool:
    at = camera.use.at
    return at is None or at.x >= -_BEHIND - EXACT


def check(case: Case) -> Iterator[Outcome]:
    cameras = case.build.of_kind(Camera)
    good = [c for c in cameras if _ahead(c) and _before(c)]
    for camera in cameras:
        at, turn = camera.use.at, camera.use.yaw
        if good and camera not in good:
            yield Judged()
        elif turn is not None and not _ahead(camera):
            text = say("{} is turned by {}; ahead is 0°.", camera.key, made(turn.value, "rad"))
            hint = "Turn it to the front, or correct the turn."
            yield Found(text, hint, camera.where.at("yaw"))
        elif at is None:
            yield NotJudged(f"place of {camera.key}", camera.where)
        elif not _before(camera):
            text = say("{} sits {} behind the middle.", camera.key, made(-at.x, "m"))
            hint = "Mount it at the front, or correct the sign of its place."
            yield Found(text, hint, camera.where.at("at"))
        else:
            yield Judged()
