"""How long the work takes somebody who copies a build, and what makes it hard."""

from collections import Counter
from collections.abc import Mapping
from math import fsum
from types import MappingProxyType
from typing import Literal

from builder.compute.order.steps.work_step import WorkStep
from builder.compute.order.work_order import Plan
from builder.frozen import value_class
from builder.load.assumed import assumed

WorkKind = Literal["joint", "gate", "powered", "step"]
WORK_TIMES: Mapping[WorkKind, float] = MappingProxyType(
    {
        "joint": assumed("hours of work/joint"),
        "step": assumed("hours of work/step"),
        "gate": assumed("hours of work/gate"),
        "powered": assumed("hours of work/powered"),
    }
)
WORK_SPREAD = assumed("hours of work/spread")
_NARROW = assumed("hours of work/narrow")


@value_class(frozen=True, slots=True)
class Effort:
    """Time of the work in s from least to most, and what makes it hard ('' for none)."""

    least: float
    most: float
    joints: int
    hard: tuple[str, ...]


def kind_of_work(step: WorkStep) -> WorkKind:
    """By what a step's time is estimated."""
    if step.joint is not None:
        return "joint"
    if step.gate:
        return "gate"
    return "powered" if step.power else "step"


def time_of_work(counts: Mapping[WorkKind, int]) -> tuple[float, float]:
    """The time of so much work in s, from least to most."""
    seconds = fsum(WORK_TIMES[kind] * many for kind, many in counts.items())
    return seconds * (1.0 - WORK_SPREAD), seconds * (1.0 + WORK_SPREAD)


def effort(plan: Plan) -> Effort:
    """How long one copier works, by the steps and the joints of the plan: drying, printing and
    waiting for parts are not in it.
    """
    joints = [s.joint for s in plan.steps if s.joint is not None]
    gaps = [gap for j in joints for _, gap in j.neighbours if gap is not None]
    narrow = [gap for gap in gaps if gap < _NARROW]
    found = (
        ("narrow pads", bool(narrow)),
        ("joints on an underside", any(j.side == "under" for j in joints)),
        ("joints that need a warmed board", any(j.heat.warm_first for j in joints)),
    )
    hard = tuple(words for words, holds in found if holds)
    least, most = time_of_work(Counter(map(kind_of_work, plan.steps)))
    return Effort(least, most, len(joints), hard)
