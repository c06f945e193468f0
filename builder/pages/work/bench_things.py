"""What of the bench is needed first in which step, and which of it the build lists."""

import re
from dataclasses import dataclass

from builder.compute.order.work_order import Plan
from builder.compute.power_up.gate import Gate
from builder.model.build import Build, Fitted
from builder.model.kinds import Consumable, Tool
from builder.pages.work.bench_needs import tools_needed
from builder.pages.work.consumable_needs import consumables_needed
from builder.pages.work.need import Need


def _answers(need: Need, fitted: Fitted) -> bool:
    """Whether a tool or consumable of the build is what a need asks for, by its name."""
    if need.consumable != isinstance(fitted.part, Consumable):
        return False
    return any(re.search(rf"\b{w}\b", fitted.part.name, re.IGNORECASE) for w in need.words)


def _first(need: Need, plan: Plan) -> str:
    """The step that first asks for it: `step 9`, `gate A`; '' where none does."""
    for step in plan.steps:
        if need.asks(step):
            return f"gate {step.gate}" if step.gate else f"step {plan.numbers[step.id]}"
    return ""


@dataclass(frozen=True)
class Thing:
    """A line of what to get ready: key, name, note, and from which step it is wanted ('' where no
    step asks for it).
    """

    key: str
    name: str
    note: str
    wanted: str


def things(
    build: Build, plan: Plan | None, gates: tuple[Gate, ...] = (), *, consumable: bool
) -> tuple[Thing, ...]:
    """Tools, or consumables: the build's own, then what its steps need besides, each by the step
    that first asks.
    """
    own: tuple[Fitted, ...] = build.of_kind(Consumable) if consumable else build.of_kind(Tool)
    needs = [] if plan is None else [*tools_needed(build, plan, gates), *consumables_needed(build)]
    asked = [(n, _first(n, plan)) for n in needs if plan is not None and n.consumable == consumable]
    out, answered = [], set()
    for f in own:
        mine = [(n, at) for n, at in asked if at and _answers(n, f)]
        answered |= {n.key for n, _ in mine}
        out.append(Thing(f.key, f.part.name, f.part.note or "", mine[0][1] if mine else ""))
    out += [
        Thing(f"need-{n.key}", n.name, n.note, at)
        for n, at in asked
        if at and n.key not in answered
    ]
    return tuple(out)
