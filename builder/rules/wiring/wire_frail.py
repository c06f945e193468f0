"""A wire too thin to handle.

Checks: the copper of each wire that the builder cuts, whatever it carries. Copper under that of 32 AWG
is a remark. Leads that a maker fitted are the maker's.
Why: a thin wire breaks where its solder ends, by a tug or by vibration, however small its current
is. A camera or a receiver is then without its ground.
Example: 36 AWG for a lamp: its copper tears at some 3 N.
Mend: take 30 AWG or thicker.
Source: ASTM B258 for the copper; soft copper tears at some 220 N/mm² (handbook value, from memory);
32 AWG as the least is common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.say import made, say

SEVERITY = Severity.REMARK
_LEAST = assumed("wires/least-copper")
_TEARS_AT = assumed("wires/tears-at")
_ROUNDED = assumed("wires/gauge-rounded")


def check(case: Case) -> Iterator[Outcome]:
    for run in case.build.wires:
        gauge = run.wire.gauge
        if gauge is None or run.wire.lead is not None:
            continue
        copper = gauge.square_metres
        if copper >= _LEAST * _ROUNDED:
            yield Judged()
            continue
        text = say(
            "{} to {} is {}, which tears at {}.",
            run.start,
            run.end,
            gauge.label,
            made(copper * _TEARS_AT, "N", decimals=1),
        )
        yield Found(text, "Take 30 AWG or thicker.", run.where.at("gauge"))
