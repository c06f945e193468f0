"""A part that has to be bought has no price.

Checks: every part that flies has a price, and a rate leads from its currency to the site's.
Why: the totals leave it out, and the sheet then says less than the build costs.
Example: a frame without price.
Mend: write 'price: {each: 41.00 EUR, seen: 2026-09-14}'. Set the currency of site.yaml to that of
the prices, or add a dated rate there.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, Outcome

SEVERITY = Severity.REMARK
SIGNAL = None
_PRICE = "Write a price with the day it was seen."
_RATE = "Write 'currency:' with the currency of your prices in site.yaml, or a dated rate there."


def check(case: Case) -> Iterator[Outcome]:
    """Each line of what flies, and each pack."""
    for line in (*case.whole.budget.lines, *case.whole.budget.packs):
        if line.used is None:
            text = f"The money for {line.label} is left out: {line.why_unknown}."
            yield Found(text, _PRICE if line.each is None else _RATE, line.where)
        else:
            yield Judged()
