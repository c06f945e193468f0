"""A fail-safe that comes late.

Checks: the time within which the fail-safe acts, against 2 s.
Why: at 15 m/s an aircraft flies 30 m in two seconds with nobody in control.
Example: motors stop within 10 s.
Mend: set it to a second or less, and test it with the propellers off.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.load.assumed import assumed
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.REMARK
SIGNAL = Signal.WARNING
_MOST = assumed("setup/fail-safe")


def check(case: Case) -> Iterator[Outcome]:
    stated = case.build.source.setup.fail_safe
    if stated is None or stated.does == "holds throttle":
        return
    where = case.build.where("setup", "fail_safe")
    if stated.within is None:
        yield NotJudged("time within which the fail-safe acts", where)
    elif stated.within.value <= _MOST:
        yield Judged()
    else:
        late, most = given(stated.within.value, "s"), given(_MOST, "s")
        text = say("The fail-safe acts within {}; {} is the most.", late, most)
        yield Found(text, "Set it to a second or less.", where.at("within"))
