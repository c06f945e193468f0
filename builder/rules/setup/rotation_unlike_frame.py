"""A rotation plan that disagrees with the frame.

Checks: the corner of each motor in the plan against the place of that motor on the frame. Each
motor of the build is in the plan once, with a way to turn.
Why: software that throttles up the wrong corner turns the aircraft over at take-off.
Example: motor 1 at the front left in the plan, and at the rear right on the frame.
Mend: stand behind the aircraft, look which motor is which, and correct the one that is wrong.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import Build
from builder.model.source.setup_source import RotationPlan
from builder.model.values.lengths_text import Position
from builder.rules.compare import clash
from builder.rules.fit._airframe import frames, motors
from builder.rules.rule import Case, Judged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
YIELDS_TO = ("wiring/motor-order-disagrees",)
_MIDDLE = assumed("setup/middle-line")


def _belies(corner: str, seat: Position) -> bool:
    words = corner.split()
    ahead = ("front" in words and seat.x < -_MIDDLE) or ("rear" in words and seat.x > _MIDDLE)
    aside = ("left" in words and seat.y < -_MIDDLE) or ("right" in words and seat.y > _MIDDLE)
    return ahead or aside or _elsewhere(words, seat)


def _elsewhere(words: list[str], seat: Position) -> bool:
    """Whether a motor that is named for one side alone lies further to another one."""
    sides = {"front": seat.x, "rear": -seat.x, "left": seat.y, "right": -seat.y}
    named = [side for side in sides if side in words]
    if len(named) != 1:
        return False
    across = abs(seat.y) if named[0] in ("front", "rear") else abs(seat.x)
    return sides[named[0]] < across - _MIDDLE


def _places(build: Build, plan: RotationPlan) -> Iterator[Outcome]:
    for fitted, frame in frames(build):
        for number, seat in (frame.motors or {}).items():
            corner = plan.corners.get(number)
            if corner is None:
                continue
            if not _belies(corner, seat):
                yield Judged()
                continue
            text = f"Motor {number} is at the {corner} in the plan, and elsewhere on {fitted.key}."
            hint = "Look which motor is which, and correct the one that is wrong."
            at = build.where("setup", "rotation", "corners", number)
            yield clash(text, hint, at, fitted.shelf_where.at("motors", number))


def _numbers(build: Build, plan: RotationPlan, where: Where) -> Iterator[Outcome]:
    many = sum(f.count for f, _ in motors(build))
    if not many or not plan.corners:
        return
    at = next((f.where for f, _ in motors(build)), where)
    if len(plan.corners) != many:
        text = f"The plan has {len(plan.corners)} motors, and the build {many}."
        yield clash(text, "Give each motor its corner.", where.at("corners"), at)
    for number in plan.turns:
        if number not in plan.corners:
            text = f"The plan says which way motor {number} turns, and not where it is."
            yield clash(text, "Give it a corner.", where.at("turns", number), where.at("corners"))
    doubled = [n for n, out in plan.outputs.items() if list(plan.outputs.values()).count(out) > 1]
    if doubled:
        text = f"Motors {' and '.join(doubled)} are on one output."
        yield clash(text, "Give each an output of its own.", where.at("outputs"), at)
    else:
        yield Judged()


def check(case: Case) -> Iterator[Outcome]:
    plan = case.build.source.setup.rotation
    if plan is None:
        return
    yield from _places(case.build, plan)
    yield from _numbers(case.build, plan, case.build.where("setup", "rotation"))
