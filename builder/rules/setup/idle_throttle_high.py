"""Motors that turn fast as soon as they are armed.

Checks: the throttle of motors at rest (`idle_throttle`): above 10 % is a remark, above 20 % a fault.
Why: blades that turn fast on the ground cut a hand, and an aircraft at much throttle lifts off by
itself.
Example: 80 % in place of 8 %.
Mend: set 4 to 8 %, and try it with the propellers off.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.load.assumed import assumed_list
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.say import say, share

SEVERITY = Severity.FAULT
SIGNAL = Signal.DANGER
_NOTED, _FAULTY = assumed_list("setup/idle-throttle")


def check(case: Case) -> Iterator[Outcome]:
    idle, at = case.build.source.setup.idle_throttle, case.build.where("setup", "idle_throttle")
    if idle is None:
        return
    if idle.value <= _NOTED:
        yield Judged()
        return
    text = say("Armed, the motors turn at {} throttle.", share(idle.value))
    hint = "Set 4 to 8 %, and try it with the propellers off."
    if idle.value <= _FAULTY:
        yield Found(text, hint, at, severity=Severity.REMARK, signal=Signal.CAUTION)
        return
    yield Found(text, hint, at)
