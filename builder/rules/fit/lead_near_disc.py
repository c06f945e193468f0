"""A lead that a propeller can reach.

Checks: leads more than twice as long as the straight way between their parts that reach the edge
of a disc.
Why: a loop that slips its tie is cut in flight; a cut battery or data lead ends it.
Example: 250 mm of wire between a receiver and a board that are 40 mm apart.
Mend: cut it to its route, and tie it down where it passes a disc.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.geometry.clearances import discs, leads_in_reach
from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.REMARK
_SLACK = assumed("mounting/lead-slack")


def check(case: Case) -> Iterator[Outcome]:
    if not case.build.wires:
        return
    if not discs(case.build):
        yield NotJudged(
            "where the discs are: motors of the frame, diameter of the propeller",
            case.build.where("parts"),
        )
        return
    found = leads_in_reach(case.build, _SLACK)
    for reach in found:
        yield Found(
            say(
                "{} to {} is {} long and reaches the disc of motor {}.",
                reach.run.start,
                reach.run.end,
                given(reach.length, "m"),
                reach.motor,
            ),
            "Cut it to its route, or tie it down.",
            reach.run.where,
        )
    if not found:
        yield Judged()
