"""Channel outside what is allowed.

Checks: each link's frequency lies inside a range that site.yaml allows for what the link serves.
Why: sending outside the allowed ranges can disturb services that lives depend on, and is punished.
Example: a video channel at 5645 MHz where 5725 to 5875 MHz is allowed.
Mend: choose a channel inside the range, or correct the range from the rules of the place.
Source: the ranges of site.yaml, each with its own source; the local authority's rules go before them
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Unknown
from builder.diagnostics.finding import Severity, Signal
from builder.rules.radio._links import links
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING


def check(case: Case) -> Iterator[Outcome]:
    for link, where in links(case):
        if isinstance(link.frequency, Unknown):
            yield NotJudged(f"{', '.join(link.frequency.missing)} unknown", where)
        elif not link.ranges:
            yield NotJudged(f"no range is allowed for {link.serves} in site.yaml", where)
        elif link.allowed is None:
            spans = ", ".join(f"{a.from_.value / 1e6:g} to {a.to.value / 1e6:g} MHz" for a in link.ranges)
            message = f"The {link.serves} link sends at {link.frequency.value / 1e6:g} MHz; allowed: {spans}."
            yield Found(message, "Choose a channel inside the range, by the rules of the place.", where)
        else:
            yield Judged()
