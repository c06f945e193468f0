"""The id of each step and group of the work."""

import re

from builder.compute.order.work_order import Plan
from builder.pages.distinct import distinct_names

_NO_ANCHOR_LETTER = re.compile(r"[^A-Za-z0-9]")


def _plain_anchor(name: str) -> str:
    return "step-" + _NO_ANCHOR_LETTER.sub("-", name.replace("+", "plus"))


def step_anchors(plan: Plan) -> dict[str, str]:
    """The id of each step by its name, and of each group by its own: the same as long as that is,
    and no two alike.
    """
    steps = sorted(s.id for s in plan.steps)
    groups = sorted(g.id for g in plan.groups if g.id not in set(steps))
    names = (*steps, *groups)
    return dict(zip(names, distinct_names(map(_plain_anchor, names)), strict=True))
