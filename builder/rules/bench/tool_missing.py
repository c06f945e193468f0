"""A tool that the work asks for and that the build does not list.

Checks: where a build lists tools, an iron, a meter, and a bench supply or a limiter are among them.
Each is asked for by the first step that needs it. The iron has a tip of each class that the joints
ask for. A tool is known by its name, an iron by its tips as well. Where a build lists what is used up
at the bench, thread lock is among it if a screw gets some.
Why: who has no meter at the first gate plugs the battery in all the same.
Example: an iron and a supply, and no meter for gate A.
Mend: list the tool, with `owned: yes` if it is at hand.
Source: common practice, no source
"""

import re
from collections.abc import Callable, Iterator
from typing import NamedTuple

from builder.compute.joints.iron import fitted_iron
from builder.compute.joints.tips import PRACTICE
from builder.compute.order.steps.work_step import WorkStep
from builder.compute.order.work_order import Plan
from builder.diagnostics.finding import Severity
from builder.model.build import Build, FittedAs
from builder.model.kinds import Consumable, Tool
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.REMARK
_LIST_IT = "List it under parts, with 'owned: yes' if it is at hand."
_MEND_TIP = "Name the tip under its tips, or take another iron."


class _Need(NamedTuple):
    """What steps ask for: what it is, words of its name, and which steps ask."""

    what: str
    words: str
    asks: Callable[[WorkStep], bool]


_NEEDS = (
    _Need("an iron", r"\biron\b", lambda s: s.do in ("tin", "solder")),
    _Need("a meter", r"\b(multi)?meter\b", lambda s: bool(s.measures or s.gate)),
    _Need("a bench supply or a limiter", r"\bsupply\b|\blimiter\b", lambda s: bool(s.gate)),
)


def _first(plan: Plan, asks: Callable[[WorkStep], bool]) -> str:
    """The step that first asks, as the sheet numbers it; '' where none does."""
    step = next((s for s in plan.steps if asks(s)), None)
    if step is None:
        return ""
    return f"gate {step.gate}" if step.gate else f"step {plan.numbers[step.id]}"


def _opens(words: str) -> str:
    """Words at the beginning of a sentence: a gate keeps its letter."""
    return words[:1].upper() + words[1:]


def _has(tools: tuple[FittedAs[Tool], ...], need: _Need, iron: FittedAs[Tool] | None) -> bool:
    if iron is not None and need.what == "an iron":
        return True
    return any(re.search(need.words, f.part.name, re.IGNORECASE) for f in tools)


def _tips(plan: Plan, iron: FittedAs[Tool]) -> Iterator[Outcome]:
    for tip in PRACTICE:
        at = _first(plan, lambda s, tip=tip: s.tip == tip)  # type: ignore[misc]
        if not at or iron.part.tips is None:
            continue
        if getattr(iron.part.tips, tip) is not None:
            yield Judged()
            continue
        text = f"{_opens(at)} asks for a {tip} tip, and {iron.key} lists none."
        yield Found(text, _MEND_TIP, iron.shelf_where.at("tips"))


def _tools(build: Build, plan: Plan) -> Iterator[Outcome]:
    tools, iron = build.of_kind(Tool), fitted_iron(build)
    where = build.where("parts")
    asked = [(need, _first(plan, need.asks)) for need in _NEEDS]
    for need, at in asked:
        if not at:
            continue
        if not tools:
            yield NotJudged(f"tools of the bench: {at} asks for {need.what}", where)
        elif _has(tools, need, iron):
            yield Judged()
        else:
            yield Found(f"{_opens(at)} asks for {need.what}; none is listed.", _LIST_IT, where)
    if iron is not None:
        yield from _tips(plan, iron)


def _thread_lock(build: Build) -> Iterator[Outcome]:
    """Thread lock is at hand where the screw list puts some on."""
    used_up = build.of_kind(Consumable)
    places = [p for p in build.screws if p.screw.lock]
    if not used_up or not places:
        return
    if any(re.search(r"\bthread.?lock", f.part.name, re.IGNORECASE) for f in used_up):
        yield Judged()
        return
    text = f"The screws at {places[0].screw.place} get thread lock; none is listed."
    yield Found(text, _LIST_IT, build.where("parts"))


def check(case: Case) -> Iterator[Outcome]:
    order = case.whole.order
    if isinstance(order, Plan):
        yield from _tools(case.build, order)
    yield from _thread_lock(case.build)
