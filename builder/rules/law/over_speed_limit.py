"""Faster than the law lets an aircraft of its weight be.

Checks: `top_speed` of the setup against the speed that a limit of weight of site.yaml names too. Only
limits that the aircraft keeps count.
Why: an aircraft that is light enough and too fast is under other rules of the air.
Example: 240 g and 25 m/s, where the class asks for less than 250 g and less than 19 m/s.
Mend: limit its speed, or its tilt, and write the speed that it then reaches. Ask the authority.
Source: the limit's own source, in site.yaml
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, NotJudged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.REMARK


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    at, stated = build.where("setup", "top_speed"), build.source.setup.top_speed
    seen: set[str] = set()
    for margin in case.whole.margins:
        limit = margin.limit
        if limit.speed is None or not margin.within or limit.name in seen:
            continue
        seen.add(limit.name)
        if stated is None:
            yield NotJudged(f"top_speed of {build.name}, for {limit.name}", build.where("setup"))
        elif stated.value < limit.speed.value:
            yield Judged()
        else:
            text = say(
                "{} flies up to {}; {} asks for less than {}.",
                build.name,
                given(stated.value, "m/s"),
                limit.name,
                given(limit.speed.value, "m/s"),
            )
            hint = "Limit its speed or its tilt, or ask the authority which rules hold."
            yield clash(text, hint, at, margin.where)
