"""Full thrust that hardly carries the aircraft.

Checks: for each battery, thrust at full throttle over the flying weight: below 1.3 it is a fault,
below 2 a remark.
Why: what is left above hovering holds it against a gust and stops a descent. Without it the
aircraft sinks, and cannot be steered while it does.
Example: 310 g of thrust for an aircraft of 280 g.
Mend: take a lighter battery, larger propellers or other motors; take the payload off.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Unknown
from builder.diagnostics.finding import Severity, Signal
from builder.load.assumed import assumed_list
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import figure, given, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_LEAST, _USUAL = assumed_list("flight/thrust-over-weight")


def check(case: Case) -> Iterator[Outcome]:
    flight = case.results.flight
    for key, pack in case.build.packs.items() if flight.drive.rotors else ():
        ratio = flight.packs[key].thrust_to_weight
        if isinstance(ratio, Unknown):
            yield NotJudged(", ".join(ratio.missing), pack.where)
            continue
        if ratio.value >= _USUAL and ratio.lacks:
            yield NotJudged(f"weight of {', '.join(ratio.lacks)} unknown", pack.where)
            continue
        if ratio.value >= _USUAL:
            yield Judged()
            continue
        wanted = given(_USUAL, "1")
        text = say(
            "With battery {} full thrust is {} times the weight; {} is usual.",
            key,
            figure(ratio, 1),
            wanted,
        )
        severity = None if ratio.value < _LEAST else Severity.REMARK
        hint = "Take weight off, or larger propellers or other motors."
        yield Found(text, hint, pack.where, severity)
