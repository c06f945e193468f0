"""An aircraft that flies, and nobody says what it does when its link is lost.

Checks: that a build which is flying, or has flights in its log, says what its fail-safe does.
Why: an aircraft whose fail-safe was never set may fly on with nobody in control.
Example: status flying, and no fail_safe under setup.
Mend: set the fail-safe, test it with the propellers off, and write down what it does.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.rules.rule import Case, Found, Judged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.DANGER


def check(case: Case) -> Iterator[Outcome]:
    source = case.build.source
    if source.status != "flying" and not source.flights:
        return
    if source.setup.fail_safe is not None:
        yield Judged()
        return
    text = "It flies, and nobody says what it does when the control link is lost."
    hint = "Write fail_safe under setup; test it with the propellers off."
    yield Found(text, hint, case.build.where("setup"), see=(case.build.where("status"),))
