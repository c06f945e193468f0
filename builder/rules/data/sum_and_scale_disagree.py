"""Sum of the parts and scale disagree by more than their spread.

Checks: each reading of the scale against the sum of the parts that lay on it; two standard
deviations are allowed.
Why: either a part is missing from the list, or a part has another weight than is believed.
Example: the parts add up to 160.0 g, spread 0.7 g, and the scale says 170.0 g.
Mend: look for what is not listed (ties, glue, sleeves), weigh the parts that only a maker's figure
is known of.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Unknown
from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import made, say

SEVERITY = Severity.REMARK
SIGNAL = None


def check(case: Case) -> Iterator[Outcome]:
    """Each reading."""
    for reading in case.results.mass.readings:
        gap = reading.gap
        name = reading.words
        where = reading.weighed.where
        if isinstance(gap, Unknown) or reading.summed.lacks:
            lacking = gap.missing if isinstance(gap, Unknown) else reading.summed.lacks
            yield NotJudged(f"sum and scale, {name}: weight of {', '.join(lacking)} unknown", where)
        elif reading.explained:
            yield Judged()
        else:
            sense = "more" if gap.value > 0 else "less"
            text = say(
                "The scale says {} {} {} than the parts add up to; the spread of that difference"
                " is {}.",
                made(abs(gap.value), "kg", gap.key, 2),  # as the table of readings
                sense,
                name,
                made(gap.spread, "kg", gap.key, 2),
            )
            yield Found(
                text,
                "Look for a part that is not listed, or weigh those that only a maker vouches for.",
                where,
            )
