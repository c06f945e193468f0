"""A step-up rail fed with more than it gives.

Checks: the highest volts at the input of each step-up rail against the rail's own.
Why: a step-up converter passes what lies above its output straight through: the rail follows the
battery.
Example: a 5 V step-up rail for one cell, on a battery of two (8.4 V full).
Mend: take a battery with fewer cells, or a board with a step-down rail.
Source: how a step-up converter works (its diode conducts); common practice
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.rules.power._input import input_of
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING


def check(case: Case) -> Iterator[Outcome]:
    for row in case.results.power.rails:
        rail = row.source.rail
        if rail is None or rail.converter != "step-up" or not row.supplied:
            continue
        board = case.build.parts[row.source.part.split(".")[0]]
        fed = input_of(case, row)
        if fed is None:
            yield NotJudged(f"volts that feed {row.source.label}", board.where)
        elif fed.highest > row.high:
            yield Found(
                say(
                    "{} gives {} and is fed with up to {}.",
                    row.source.label,
                    given(row.volts, "V"),
                    made(fed.highest, "V"),
                ),
                "Take a battery with fewer cells, or a board with a step-down rail.",
                board.where,
            )
        else:
            yield Judged()
