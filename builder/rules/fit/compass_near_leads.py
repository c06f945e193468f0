"""A compass too near the battery leads.

Checks: the place of each compass against the leads between battery and speed controller: its keep-out,
or 50 mm.
Why: forty amperes in a lead turn a compass by many degrees; coming home then goes the wrong way.
Example: a compass 20 mm above the pigtail.
Mend: put it on a mast at the other end, and twist the leads.
Source: field of a long straight wire; 50 mm is common practice, no source
"""

from collections.abc import Iterator

from builder.compute.geometry.clearances import battery_leads, compasses, from_battery_leads
from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.REMARK
_USUAL = assumed("mounting/compass-room")


def check(case: Case) -> Iterator[Outcome]:
    for what in compasses(case.build):
        found = from_battery_leads(case.build, what)
        keepout = getattr(what.part, "keepout", None)
        least = keepout.value if keepout is not None else _USUAL
        if found is None:
            if what.use.at is None:
                yield NotJudged(f"place of {what.key}", what.where)
            elif battery_leads(case.build):
                yield NotJudged(
                    "places of the pigtail and the speed controller", case.build.where("parts")
                )
            continue
        if found.distance < least:
            yield Found(
                say(
                    "{} is {} from {}; {} are wanted.",
                    what.key,
                    made(found.distance, "m"),
                    found.second,
                    given(least, "m"),
                ),
                "Put it further from the battery leads, and twist them.",
                what.where,
            )
        else:
            yield Judged()
