"""Two parts that are written into one place.

Checks: boards, cameras, radios, motors, capacitors and batteries as boxes of their size around their place: how much
of the smaller one lies within another. Without a size, places that are the same.
Why: two bodies cannot be in one place. The place that is a slip puts the middle of mass wrong, and the way of wires.
Example: the video transmitter at the place of the control board.
Mend: correct the place of one of the two.
Source: the places themselves
"""

from collections.abc import Iterator

from builder.compute.geometry.shared_room import shared_rooms
from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, Outcome
from builder.rules.say import say, share

SEVERITY = Severity.REMARK
_MOST = assumed("mounting/shared-room")


def check(case: Case) -> Iterator[Outcome]:
    for both in shared_rooms(case.build):
        if both.share <= _MOST:
            yield Judged()
            continue
        text = say("{} lies with {} of it in {}.", both.second, share(both.share), both.first)
        yield clash(text, "Correct the place of one of the two.", both.where, both.other)
