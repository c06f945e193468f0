"""The order of work with the soldering order: each line with its place, heat and reason, gates as
bars between.
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Figure
from builder.compute.joints.tips import PRACTICE
from builder.compute.order.effort import effort
from builder.compute.order.work_order import Cycle, Plan
from builder.pages.blocks import (
    Block,
    Bullets,
    GateBar,
    Notice,
    Number,
    Paragraph,
    Section,
    Span,
    Step,
    Steps,
)
from builder.pages.numbers import number
from builder.pages.sheet_input import SheetInput
from builder.pages.work.as_built import as_built_table
from builder.pages.work.gate_procedure import gate_section
from builder.pages.work.plan_items import plan_items
from builder.pages.work.step_facts import WARM
from builder.rounding import rounded


def _often(count: int) -> str:
    if not count:
        return "never"
    return "once" if count == 1 else f"{count} times"


def how_ordered(plan: Plan) -> Paragraph:
    """How many steps there are, and how few changes their order needs."""
    mine = plan.changes
    joints = sum(1 for s in plan.steps if s.joint is not None)
    steps = sum(1 for group in plan.groups if not group.gate)
    sure = (
        "No order of these steps has fewer."
        if plan.exact
        else "A better order may exist: the search stopped."
    )
    own = (
        " The builder's own steps are where their lines put them."
        if any(s.own is not None for s in plan.steps)
        else ""
    )
    return Paragraph(
        (
            Span(
                f"{steps} steps, {joints} joints. You change the tip {_often(mine.tips)}, its"
                f" temperature {_often(mine.irons)}, the board {_often(mine.boards)} and the side"
                f" {_often(mine.sides)}. {sure}{own} Ticks stay on this device."
            ),
        ),
        quiet=True,
    )


def hours(plan: Plan) -> Paragraph:
    """How long a copier works and what is hard about it, with what the estimate rests on."""
    found = effort(plan)
    low, high = (rounded(seconds / 3600.0, 0) for seconds in (found.least, found.most))
    hard = f" Hard: {', '.join(found.hard)}." if found.hard else " Nothing in it is rare."
    words = (
        f"Estimate for a copier who solders well: {low} to {high} h, without drying and waiting for"
        f" parts. It rests on {found.joints} joints, all other boxes and the gates (usual times,"
        f" from memory).{hard}"
    )
    return Paragraph((Span(words),))


def _heat_words(sheet: SheetInput, *, paper: bool) -> Paragraph | None:
    """Which joint is the hardest, and what the figures and ranges rest on. Paper has no watts."""
    known = [j for j in sheet.results.joints if isinstance(j.heat.flow, Figure)]
    if not known:
        return None
    hardest = max(known, key=lambda j: j.heat.power)
    fine, broad = PRACTICE["fine"], PRACTICE["broad"]
    flow: Number = number(hardest.heat.flow)
    first = f"Hardest joint: {hardest.contact}. Use the {hardest.heat.tip} tip there."
    text = (
        " If a joint does not flow in its time, take the iron off. Let the board cool, then add"
        " flux. Use a wider tip that does not touch the next pad, or warm the board from below."
        f" A hot plate that shows it does that, at about {WARM} °C. More time lifts the copper."
    )
    ranges = (
        f" Ranges of temperature and time ({fine.iron[0]} °C and {fine.dwell[0]} s to"
        f" {broad.iron[1]} °C and {broad.dwell[1]} s for tin-lead) are bench practice without a"
        " source."
    )
    text += "" if paper else ranges
    loses = () if paper else (Span(" While it is hot it loses "), flow, Span("."))
    return Paragraph((Span(first), *loses, Span(text)), quiet=True)


def _not_kept(plan: Plan) -> Paragraph:
    """What the usual order asks for and this hardware does not allow."""
    lines = "; ".join(
        dict.fromkeys(f"{c.before} before {c.after} ({c.reason})" for c in plan.dropped)
    )
    return Paragraph(
        (Span(f"These parts do not allow the usual order everywhere. Not kept: {lines}."),)
    )


def contradiction(plan: Cycle) -> Section:
    """The lines that no order can keep together."""
    lines = tuple(
        (Span(f"{c.before} comes before {c.after}: {c.reason}"),) for c in plan.constraints
    )
    said = Notice(
        None, "The order cannot be made: these lines contradict each other.", (), tone="fault"
    )
    return Section("order", "Order of work", (said, Bullets(lines)))


def _with_gates(sheet: SheetInput, items: tuple[Step | GateBar, ...]) -> Iterator[Block | Section]:
    """The steps with each gate as a procedure where its bar is."""
    gates = {f"Gate {g.letter}": g for g in sheet.results.gates}
    row: list[Step | GateBar] = []
    for item in items:
        row.append(item)
        if isinstance(item, GateBar) and item.title in gates:
            yield Steps(tuple(row))
            yield gate_section(sheet, gates[item.title])
            row = []
    if row:
        yield Steps(tuple(row))


def before_the_steps(
    sheet: SheetInput, plan: Plan, *, paper: bool = False
) -> tuple[Paragraph, ...]:
    """What the hand must know of the heat and of the order; on a screen also how long it takes, how
    hard it is and how it was ordered, which paper says earlier or not at all.
    """
    heat = _heat_words(sheet, paper=paper)
    told = [] if paper else [hours(plan), how_ordered(plan)]
    told += [heat] if heat is not None else []
    if plan.dropped:
        told.append(_not_kept(plan))
    return tuple(told)


def order_of_work(sheet: SheetInput) -> Section:
    """Every step with its boxes, and each gate where its bar is."""
    plan = sheet.results.order
    if isinstance(plan, Cycle):
        return contradiction(plan)
    blocks: list[Block | Section] = [*before_the_steps(sheet, plan)]
    blocks += _with_gates(sheet, plan_items(sheet))
    if sheet.build.source.as_built:
        blocks.append(Section("as-built", "As built", (as_built_table(sheet),), 3))
    return Section("order", "Order of work", tuple(blocks))
