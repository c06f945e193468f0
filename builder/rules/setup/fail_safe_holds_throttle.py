"""Fail-safe holds the last throttle.

Checks: what the build says that happens when the control link is lost.
Why: an aircraft that keeps its throttle flies on with nobody in control, into whoever stands in its way.
Example: fail_safe does 'holds the last throttle'.
Mend: let the motors stop, or come down under control, and test it with the propellers off.
Source: common practice, no source
"""

import re
from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.DANGER
_HOLDS = re.compile(r"\b(holds?|keeps?|last|freezes?|unchanged)\b", re.I)
_DENIED = re.compile(r"\b(not|never|no)\b", re.I)
_STOPS = re.compile(r"\b(stops?|stopped|off|cuts?|land\w*|descends?|comes? down|drops?|home)\b", re.I)


def check(case: Case) -> Iterator[Outcome]:
    stated = case.build.source.setup.fail_safe
    where = case.build.where("setup", "fail_safe")
    if stated is None:
        yield NotJudged("what happens when the control link is lost is not said", case.build.where("setup"))
        return
    holds = _HOLDS.search(stated.does) is not None and _DENIED.search(stated.does) is None
    if holds and not _STOPS.search(stated.does):
        hint = "Let the motors stop when the link is lost; test it with the propellers off."
        yield Found(f"When the link is lost: '{stated.does}'.", hint, case.build.where("setup", "fail_safe", "does"))
    elif _STOPS.search(stated.does):
        yield Judged()
    else:
        yield NotJudged(f"whether '{stated.does}' stops the motors", where)
