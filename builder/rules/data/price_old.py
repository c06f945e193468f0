"""A price that was seen long ago.

Checks: the date of each price against the age that site.yaml allows, counted from its as_of.
Why: who buys by an old price pays another one.
Example: a price of 400 days before as_of where 180 days are allowed.
Mend: look the price up again and write the day as 'seen'.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.REMARK
SIGNAL = None


def check(case: Case) -> Iterator[Outcome]:
    """Each line that has a price."""
    budget = case.whole.budget
    if case.build.site.price_age is None:
        return
    for line in (*budget.lines, *budget.packs, *budget.once):
        if line.each is None or line.owned:
            continue
        if line.age_days is None:
            missing = (
                "the day on which the price was seen" if line.seen is None else "as_of in site.yaml"
            )
            yield NotJudged(f"{line.label}: {missing} unknown", line.where)
        elif line.stale and line.seen is not None:
            text = (
                f"The price of {line.label} was seen on {line.seen.isoformat()}, {line.age_days}"
                " days ago."
            )
            yield Found(
                text, "Look it up again and write the day as 'seen'.", line.where.at("seen")
            )
        else:
            yield Judged()
