"""Channel outside what is allowed.

Checks: each link's frequency lies inside a range that site.yaml allows for what the link serves.
Why: sending outside the allowed ranges can disturb services that lives depend on, and is punished.
Example: a video channel at 5645 MHz where 5725 to 5875 MHz is allowed.
Mend: choose a channel inside the range, or correct the range from the rules of the place.
Source: the ranges of site.yaml, each with its own source; the local authority's rules go before
them
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Unknown
from builder.diagnostics.finding import Severity, Signal
from builder.diagnostics.sentence import joined
from builder.rules.radio._links import links
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, say, span

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING


def check(case: Case) -> Iterator[Outcome]:
    for link, where in links(case):
        if isinstance(link.frequency, Unknown):
            yield NotJudged(f"{', '.join(link.frequency.missing)} unknown", where)
        elif not link.ranges:
            yield NotJudged(f"no range is allowed for {link.serves} in site.yaml", where)
        elif link.allowed is None:
            spans = joined(", ", (span(a.from_.value, a.to.value, "Hz") for a in link.ranges))
            sent = given(link.frequency.value, "Hz", link.frequency.key)
            message = say("The {} link sends at {}; allowed: {}.", link.serves, sent, spans)
            yield Found(
                message, "Choose a channel inside the range, by the rules of the place.", where
            )
        else:
            yield Judged()
