"""A flight of the log that took less power than a hover does.

Checks: the mean power of each flight against the power of a hover at its weight in its air. Half of
it or less cannot keep the aircraft up; five times of it or more is a slip too.
Why: the times and the timer learn from the log.
Example: 40 minutes in the air on a battery that hovers for ten.
Mend: correct the time or the charge, or leave the flight out.
Source: momentum theory: forward flight saves a third of the power of a hover at best (Leishman,
chapter 5, from memory)
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Figure
from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed_list
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.say import made, say

SEVERITY = Severity.REMARK
_LEAST, _MOST = assumed_list("flight log/over-hover")


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    for flight in case.results.flight.style.flights:
        factor, entry = flight.factor, build.source.flights[flight.index]
        if not isinstance(factor, Figure) or entry.leave_out:
            continue
        if _LEAST < factor.value < _MOST:
            yield Judged()
            continue
        text = say(
            "Flight {} took {} times the power of a hover.",
            flight.index + 1,
            made(factor.value, "1", factor.key, 2),
        )
        hint = "Correct the time or the charge, or leave the flight out."
        yield Found(text, hint, build.where("flights", flight.index, "airborne"))
