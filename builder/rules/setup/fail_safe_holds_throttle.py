"""Fail-safe holds the last throttle.

Checks: what the build says that happens when the control link is lost (`does`). 'holds throttle' is
a fault. 'motors stop', 'lands' and 'comes home' pass. What is said in other words cannot be
checked.
Why: an aircraft that keeps its throttle flies on with nobody in control, into whoever stands in its
way.
Example: fail_safe does 'holds throttle'.
Mend: let the motors stop, or come down under control, and test it with the propellers off.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.model.values.words import own_words
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.DANGER


def check(case: Case) -> Iterator[Outcome]:
    stated, source = case.build.source.setup.fail_safe, case.build.source
    if stated is None:
        flies = source.status == "flying" or bool(source.flights)
        if not flies:  # of one that flies, setup/fail-safe-missing says it
            lacking = "what happens when the control link is lost is not said"
            yield NotJudged(lacking, case.build.where("setup"))
        return
    where = case.build.where("setup", "fail_safe", "does")
    own = own_words(stated.does)
    if own is not None:
        yield NotJudged(f"whether {own!r} stops the motors when the control link is lost", where)
    elif stated.does == "holds throttle":
        hint = "Let the motors stop when the link is lost; test it with the propellers off."
        yield Found("When the link is lost, the throttle stays where it was.", hint, where)
    else:
        yield Judged()
