"""Two links on one band.

Checks: where the picture and the control link of a build are sent at once, that their frequencies
are not near each other.
Why: the video transmitter sits a hand's breadth from the control receiver and deafens it; the
aircraft is lost at a fraction of the usual range.
Example: video at 2410 MHz and control at 2440 MHz.
Mend: take the picture and the control to different bands.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Figure
from builder.diagnostics.finding import Severity, Signal
from builder.load.assumed import assumed
from builder.rules.compare import clash
from builder.rules.radio._links import links
from builder.rules.rule import Case, Judged, NotJudged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_APART = assumed("radio/bands-apart")


def check(case: Case) -> Iterator[Outcome]:
    found = list(links(case))
    if len(found) < 2:
        return
    (video, at), (control, there) = found
    if not isinstance(video.frequency, Figure) or not isinstance(control.frequency, Figure):
        yield NotJudged("frequency of both links", there)
        return
    one, two = video.frequency.value, control.frequency.value
    if abs(one - two) > _APART * max(one, two):
        yield Judged()
        return
    text = say(
        "The picture is sent at {} and the control link at {}.", given(one, "Hz"), given(two, "Hz")
    )
    yield clash(text, "Take the two to different bands.", at, there)
