"""One switch that is set up twice, or two switches that do one thing.

Checks: that no two lines of the setup's switches have one name, and no two do the same.
Why: a pilot who moves the switch that is not the one leaves the motors armed.
Example: two switches that arm the motors.
Mend: leave the one that is set, and say of the other what it does.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, Outcome
from builder.rules.say import say

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING


def _plain(text: str | None) -> str:
    return " ".join((text or "").casefold().split())


def check(case: Case) -> Iterator[Outcome]:
    switches = case.build.source.setup.switches
    at = case.build.where("setup", "switches")
    for field, text in (
        ("name", "Two switches are called {}."),
        ("does", "Two switches do this: {}."),
    ):
        seen: dict[str, int] = {}
        for i, switch in enumerate(switches):
            said = _plain(getattr(switch, field))
            first = seen.setdefault(said, i)
            if said and first != i:
                hint = "Leave the one that is set, and correct the other."
                yield clash(say(text, repr(said)), hint, at.at(i, field), at.at(first, field))
    if switches:
        yield Judged()
