"""Propellers of one hand only.

Checks: propellers of both hands are there, as many as motors turn each way, by the sets that they
come in. Where the setup does not say: half and half.
Why: a propeller on the wrong motor pushes down; the aircraft turns over at take-off.
Example: four propellers that all turn clockwise.
Mend: take sets that hold both hands.
Source: common practice, no source
"""

from collections.abc import Iterator
from math import ceil

from builder.diagnostics.finding import Severity, Signal
from builder.rules.fit._airframe import motors, propellers
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING


def _wanted(case: Case, count: int) -> tuple[int, int]:
    plan = case.build.source.setup.rotation
    turns = list(plan.turns.values()) if plan is not None else []
    if len(turns) == count:
        return turns.count("clockwise"), turns.count("counter-clockwise")
    return count // 2, count // 2


def check(case: Case) -> Iterator[Outcome]:
    found = propellers(case.build)
    count = sum(f.count for f, _ in motors(case.build))
    if not found or not count:
        return
    right = left = 0
    for fitted, part in found:
        if part.hands is None or not part.hands.clockwise + part.hands.counter:
            yield NotJudged(f"hands of {fitted.key}", fitted.shelf_where)
            return
        sets = ceil(
            (fitted.count + fitted.use.spares) / (part.hands.clockwise + part.hands.counter)
        )
        right, left = right + sets * part.hands.clockwise, left + sets * part.hands.counter
    wants_right, wants_left = _wanted(case, count)
    where = found[0][0].where
    if right < wants_right or left < wants_left:
        yield Found(
            f"{wants_right} propellers turn clockwise and {wants_left} the other way; there are"
            f" {right} and {left}.",
            "Take sets that hold both hands.",
            where,
        )
    elif sum(f.count for f, _ in found) < count:
        yield Found(
            f"{count} motors, and {sum(f.count for f, _ in found)} propellers.",
            "Count one propeller a motor.",
            where,
            signal=Signal.NOTICE,
        )
    else:
        yield Judged()
