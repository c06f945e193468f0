"""A screw that grips too little.

Checks: the length of thread in grip: below 0.6 diameters a fault, below 0.8 a remark.
Why: a thread of two turns strips, and a motor comes off its arm in flight.
Example: M2 x 6 through an arm of 5 mm: 1 mm of thread, half a diameter.
Mend: take the next longer screw, as long as it stays clear of what lies behind.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Figure, Unknown
from builder.diagnostics.finding import Severity, Signal
from builder.load.assumed import assumed_list
from builder.rules.compare import EXACT
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import say

SEVERITY = Severity.FAULT
LEAST, SCANT = assumed_list("mounting/screw-grip")


def check(case: Case) -> Iterator[Outcome]:
    for row in case.results.screws:
        grip, turns = row.grip, row.grip_diameters
        if isinstance(turns, Unknown):
            yield from (NotJudged(missing, row.where) for missing in turns.missing)
            continue
        reaches = isinstance(grip, Figure) and grip.value > 0
        held = say("grips {}, {} diameters", grip, turns) if reaches else "does not reach it"
        text = say("{} at {} {}.", row.name, row.place, held)
        if turns.value < LEAST - EXACT:
            yield Found(
                text,
                "Take a longer screw.",
                row.where,
                signal=Signal.WARNING if row.motor else None,
            )
        elif turns.value < SCANT - EXACT:
            yield Found(text, "A longer screw grips better.", row.where, severity=Severity.REMARK)
        else:
            yield Judged()
