"""Neighbouring motors turn the same way.

Checks: on four corners, that each motor turns against both of its neighbours, and that every corner
has one motor. Other layouts are checked by 'Motors whose turns do not balance'.
Why: the software steers by neighbours that turn apart; if they turn alike it spins or flips at
take-off.
Example: front left and front right both clockwise.
Mend: let diagonal motors turn alike and neighbours apart; swap two phases of the wrong one, or its
setting.
Source: yaw torque balance of a rotorcraft with four rotors, any textbook of them (from memory)
"""

from collections.abc import Iterator

from builder.compute.setup.settings import RING
from builder.diagnostics.finding import Severity, Signal
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.DANGER


def check(case: Case) -> Iterator[Outcome]:
    motors = case.results.settings.motors
    where = case.build.where("setup", "rotation")
    if not motors:
        return
    turns = {m.corner: m.turns for m in motors}
    if len(turns) < len(motors):
        yield Found(
            "Two motors are given the same corner.", "Give each motor a corner of its own.", where
        )
        return
    if set(turns) != set(RING):
        return  # any other layout is judged by the places of its motors
    for a, b in zip(RING, (*RING[1:], RING[0]), strict=True):
        if not turns[a] or not turns[b]:
            yield NotJudged(f"which way the motor at the {a if not turns[a] else b} turns", where)
        elif turns[a] == turns[b]:
            message = f"The motors at the {a} and the {b} are neighbours and both turn {turns[a]}."
            yield Found(
                message,
                "Neighbours turn opposite ways; diagonal motors turn alike.",
                case.build.where("setup", "rotation", "turns"),
            )
        else:
            yield Judged()
