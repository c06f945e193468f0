"""Motors that may stop in the air.

Checks: the throttle of motors at rest (`idle_throttle`): below 2 % is a remark.
Why: with the stick down a motor stops, starts late again, and the aircraft tumbles.
Example: 0 % in place of 5 %.
Mend: set 4 to 8 %, and try it with the propellers off.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.load.assumed import assumed
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.say import say, share

SEVERITY = Severity.REMARK
SIGNAL = Signal.WARNING
_LEAST = assumed("setup/idle-throttle-least")


def check(case: Case) -> Iterator[Outcome]:
    idle = case.build.source.setup.idle_throttle
    if idle is None:
        return
    if idle.value >= _LEAST:
        yield Judged()
        return
    text = say("Armed, the motors turn at {} throttle: one may stop in the air.", share(idle.value))
    hint = "Set 4 to 8 %, and try it with the propellers off."
    yield Found(text, hint, case.build.where("setup", "idle_throttle"))
