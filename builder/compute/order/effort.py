"""How long the work takes somebody who copies a build, and what makes it hard."""

from builder.compute.order.work_order import Plan
from builder.frozen import value_class
from builder.load.assumed import assumed

_JOINT = assumed("hours of work/joint")
_STEP = assumed("hours of work/step")
_GATE = assumed("hours of work/gate")
_POWERED = assumed("hours of work/powered")
_SPREAD = assumed("hours of work/spread")
_NARROW = assumed("hours of work/narrow")


@value_class(frozen=True, slots=True)
class Effort:
    """Time of the work in s from least to most, and what makes it hard ('' for none)."""

    least: float
    most: float
    joints: int
    hard: tuple[str, ...]


def effort(plan: Plan) -> Effort:
    """How long one copier works, by the steps and the joints of the plan: drying, printing and
    waiting for parts are not in it.
    """
    joints = [s.joint for s in plan.steps if s.joint is not None]
    seconds = 0.0
    for step in plan.steps:
        each = _STEP
        if step.joint is not None:
            each = _JOINT
        elif step.gate:
            each = _GATE
        elif step.power:
            each = _POWERED
        seconds += each
    gaps = [gap for j in joints for _, gap in j.neighbours if gap is not None]
    narrow = [gap for gap in gaps if gap < _NARROW]
    found = (
        ("narrow pads", bool(narrow)),
        ("joints on an underside", any(j.side == "under" for j in joints)),
        ("joints that need a warmed board", any(j.heat.warm_first for j in joints)),
    )
    hard = tuple(words for words, holds in found if holds)
    return Effort(seconds * (1.0 - _SPREAD), seconds * (1.0 + _SPREAD), len(joints), hard)
