"""A bench supply that cannot give what a gate asks for.

Checks: the highest current of each supply on the bench against the limit that each gate sets.
Why: the supply limits before the loads have started, and a sound board looks like a short.
Example: a supply of 50 mA at a gate that is limited to 0.6 A.
Mend: take a stronger supply, or the series limiter.
Source: the build's own gates; common practice, no source
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Figure
from builder.diagnostics.finding import Severity
from builder.model.kinds import Tool
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.REMARK


def check(case: Case) -> Iterator[Outcome]:
    gates = case.whole.gates
    supplies = [f for f in case.build.of_kind(Tool) if f.part.current is not None]
    for fitted in supplies if gates else ():
        gives = fitted.part.current.value if fitted.part.current is not None else 0.0
        known = [(g, g.limit) for g in gates if isinstance(g.limit, Figure)]
        if not known:
            continue
        gate, most = max(known, key=lambda pair: pair[1].value)
        if most.value <= gives:
            yield Judged()
            continue
        has = given(gives, "A", f"shelf/{fitted.shelf}/current")
        text = say(
            "Gate {} limits the supply to {}; {} gives {}.", gate.letter, most, fitted.key, has
        )
        yield Found(
            text,
            "Take a stronger supply, or the series limiter.",
            fitted.shelf_where.at("current"),
        )
