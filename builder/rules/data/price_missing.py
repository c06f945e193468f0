"""A part that has to be bought has no price.

Checks: every part that flies has a price, and a rate leads from its currency to the site's.
Why: the totals leave it out, and the sheet then says less than the build costs.
Example: a frame without price.
Mend: write 'price: {each: 41.00 EUR, seen: 2026-09-14}', or add a dated rate to site.yaml.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, Outcome

SEVERITY = Severity.REMARK
SIGNAL = None


def check(case: Case) -> Iterator[Outcome]:
    """Each line of what flies, and each pack."""
    for line in (*case.whole.budget.lines, *case.whole.budget.packs):
        if line.used is None:
            text = f"The money for {line.label} is left out: {line.why_unknown}."
            yield Found(
                text,
                "Write a price with the day it was seen, or a dated rate in site.yaml.",
                line.where,
            )
        else:
            yield Judged()
