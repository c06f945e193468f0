"""Props-in or props-out disagrees with the motors.

Checks: the stated 'in' or 'out' against the way the front left motor turns.
Why: propellers mounted for the other plan push air upward, and the aircraft turns over at take-off.
Example: props 'in' with the front left motor turning counter-clockwise, seen from above.
Mend: correct the word, or the turns; then check each motor with a strip of paper, propellers off.
Source: geometry; 'in' means that the front blades move inward at the nose (common practice, no
source)
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING


def check(case: Case) -> Iterator[Outcome]:
    plan = case.build.source.setup.rotation
    if plan is None or plan.props is None:
        return
    where = case.build.where("setup", "rotation", "props")
    found = case.results.settings.props
    if not found:
        yield NotJudged("which way the front left motor turns", where)
    elif found != plan.props:
        message = (
            f"Stated is props {plan.props}; with the front left motor as it turns they go {found}."
        )
        yield Found(
            message,
            "Correct the word or the turns, then check each motor without propellers.",
            where,
        )
    else:
        yield Judged()
