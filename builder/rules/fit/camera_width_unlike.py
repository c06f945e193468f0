"""A camera that does not go between the cheeks.

Checks: the camera's width against what the frame takes: wider by more than 0.3 mm is a fault,
narrower by more than 0.5 mm a remark.
Why: a wide one has to be filed in, a narrow one hangs on its screws and shakes.
Example: a camera of 19 mm in a frame for 14 mm.
Mend: another camera, or shims for one that is narrow.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed_list
from builder.model.kinds import Camera
from builder.rules.fit._airframe import frames
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, say, span

SEVERITY = Severity.FAULT
_WIDE, _NARROW = assumed_list("mounting/camera-width")


def check(case: Case) -> Iterator[Outcome]:
    for frame, part in frames(case.build):
        for fitted in case.build.of_kind(Camera):
            width = fitted.part.width
            taken = part.camera_width
            if width is None or taken is None:
                missing, at = ("width", fitted) if width is None else ("camera width", frame)
                yield NotJudged(f"{missing} of {at.key}", at.shelf_where)
                continue
            key = f"shelf/{frame.shelf}/camera_width"
            one = taken.low == taken.high
            takes = given(taken.low, "m", key) if one else span(taken.low, taken.high, "m", key)
            wide = given(width.value, "m", f"shelf/{fitted.shelf}/width")
            text = say("{} is {} wide; {} takes {}.", fitted.key, wide, frame.key, takes)
            if width.value > taken.high + _WIDE:
                yield Found(
                    text, "Take a camera of the frame's width.", fitted.where, see=(frame.where,)
                )
            elif width.value < taken.low - _NARROW:
                hint = "Fill the gap with shims."
                yield Found(text, hint, fitted.where, severity=Severity.REMARK, see=(frame.where,))
            else:
                yield Judged()
