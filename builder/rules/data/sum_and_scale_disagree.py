"""Readings of the scale and the parts contradict each other.

Checks: all readings of the scale and the sum of the parts together, each with its spread.
Sound ones would scatter so far once in two hundred times.
Why: either a part is missing from the list, or a part has another weight than is believed, or a
reading is a slip.
Example: the parts add up to 160.0 g, spread 0.7 g, and the scale says 170.0 g.
Mend: weigh again what is named; look for what is not listed (ties, glue, sleeves).
Source: global test and measurement test of data reconciliation, Narasimhan and Jordache (2000),
ch. 7 (from memory)
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Figure, Unknown
from builder.compute.weight.reconcile import ScaleReading
from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import made, say

SEVERITY = Severity.REMARK
SIGNAL = None


def check(case: Case) -> Iterator[Outcome]:
    """All readings together: which of those that contradict each other is wrong cannot be known."""
    odd: list[ScaleReading] = []
    for reading in case.results.mass.readings:
        gap, where = reading.gap, reading.weighed.where
        if isinstance(gap, Unknown) or reading.summed.lacks:
            lacking = gap.missing if isinstance(gap, Unknown) else reading.summed.lacks
            unknown = f"weight of {', '.join(lacking)} unknown"
            yield NotJudged(f"sum and scale, {reading.words}: {unknown}", where)
        if not reading.explained:
            odd.append(reading)
        elif not isinstance(gap, Unknown) and not reading.summed.lacks:
            yield Judged()
    if odd:
        yield _found(odd)


def _found(odd: list[ScaleReading]) -> Found:
    """One finding that names every reading that takes part, each with what it is off by."""
    parts: list[str] = []
    said: list[object] = []
    for reading in odd:
        gap = reading.gap
        if isinstance(gap, Figure):
            parts.append("{} {} {}")
            sense = "more" if gap.value > 0 else "less"
            said += [made(abs(gap.value), "kg", gap.key, 2), sense, reading.words]
        else:
            parts.append("{}")
            said.append(reading.words)
    spread = odd[0].gap.spread if isinstance(odd[0].gap, Figure) else 0.0
    template = (
        f"The scale says {'; '.join(parts)} than the parts add up to; the spread of that difference"
        " is {}. These readings and the parts cannot all be right."
    )
    text = say(template, *said, made(spread, "kg", "", 2))
    hint = (
        "Weigh again what is named here. Look for a part that is not listed, or weigh those that"
        " only a maker vouches for."
    )
    return Found(text, hint, odd[0].weighed.where)
