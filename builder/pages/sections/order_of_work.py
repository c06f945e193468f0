"""The order of work with the soldering order: each line with its place, heat and reason, gates as
bars between.
"""

import re

from builder.compute.figures.figure import Figure
from builder.compute.joints.tips import PRACTICE
from builder.compute.order.builder_steps import meant
from builder.compute.order.steps import Gathered, WorkStep
from builder.compute.order.work_order import Cycle, Plan
from builder.compute.power_up.power_gates import Gate
from builder.diagnostics.finding import Signal
from builder.model.build import Build
from builder.model.source.build_source import AsBuilt
from builder.pages.blocks import (
    Block,
    Bullets,
    GateBar,
    Notice,
    Number,
    Paragraph,
    Picture,
    Section,
    Span,
    Step,
    Steps,
    WriteIn,
)
from builder.pages.distinct import distinct_names
from builder.pages.numbers import number
from builder.pages.sheet_input import SheetInput
from builder.pages.told_words import told_words
from builder.pages.work.as_built import as_built_table
from builder.pages.work.step_facts import WARM, step_facts
from builder.rounding import rounded

_NO_ANCHOR_LETTER = re.compile(r"[^A-Za-z0-9]")


def _plain_anchor(step: WorkStep) -> str:
    return "step-" + _NO_ANCHOR_LETTER.sub("-", step.id.replace("+", "plus"))


def step_anchors(steps: tuple[WorkStep, ...]) -> dict[str, str]:
    """The id of each step by its name: the same as long as that is, and no two alike."""
    ordered = sorted(steps, key=lambda s: s.id)
    return dict(
        zip((s.id for s in ordered), distinct_names(map(_plain_anchor, ordered)), strict=True)
    )


def _picture(build: Build, step: WorkStep) -> Picture | None:
    own = build.source.steps[step.own] if step.own is not None else None
    if own is None or own.photo is None:
        return None
    return Picture(f"{build.name}/{own.photo}", own.alt or own.text)


def _built(plan: Plan, build: Build) -> dict[str, list[AsBuilt]]:
    """What came back from the bench, by the first step that it means."""
    known = Gathered({s.id: s for s in plan.steps})
    out: dict[str, list[AsBuilt]] = {}
    for line in build.source.as_built:
        for name in meant(known, line.step)[:1] if line.step else ():
            out.setdefault(name, []).append(line)
    return out


def built_words(line: AsBuilt) -> str:
    """A line that came back from the bench, with its date."""
    told = " ".join(
        w for w in (line.text or "", f"Read: {line.measured}." if line.measured else "") if w
    )
    return f"As built, {line.date.isoformat()}: {told}"


def _expected(sheet: SheetInput, step: WorkStep, said: str) -> str:
    """What a reading is expected to be; for the scale, what the weight table says."""
    if step.id != "balance":
        return said
    mass = sheet.results.mass
    dry = "dry, without payload" if mass.payload else "dry"
    weights = [
        (dry, mass.dry),
        *((f"with {mass.flown_with(k)}", f) for k, f in mass.all_up.items()),
    ]
    return (
        ", ".join(f"{what} {rounded(1000 * f.value, 1)} g" for what, f in weights if not f.lacks)
        or said
    )


def _caution(step: WorkStep) -> Notice | None:
    """What to take care of at one step, where it is done."""
    said = {
        "first pack": (
            (
                "If a joint is wrong, the battery delivers its full current, and a motor can start"
                " by itself."
            ),
            (
                "Take the propellers off. Check red to plus and black to minus again. Then push the"
                " plug in."
            ),
        ),
        "propellers": (
            "A motor that starts by itself cuts to the bone.",
            "Unplug the battery and put it aside before you touch a propeller.",
        ),
    }
    if step.id not in said:
        return None
    title, text = said[step.id]
    return Notice(Signal.WARNING, title, (Span(text),))


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:] + ("" if text.endswith((".", "!", "?")) else ".")


def _because(reason: str) -> str:
    """A reason behind 'because': a builder's own begins with a capital, unless it is a name in
    capitals.
    """
    a_word = reason[1:2].islower() or reason[1:2] == " "
    plain = reason[:1].lower() + reason[1:] if a_word else reason
    return f"because {plain}"


def _reason(build: Build, plan: Plan, step: WorkStep, names: dict[str, str]) -> tuple[str, str]:
    """Why a step stands where it does, as a sentence, and what would make the same reason read
    twice.

    `names` are what came before, as the reader sees it: 'step 7', 'gate B'.
    """
    own = build.source.steps[step.own] if step.own is not None else None
    if own is not None and own.reason:
        return _sentence(own.reason), own.reason
    waits = plan.waits_for(step.id)
    if waits is None:
        return "", ""
    return _sentence(f"After {names[waits.before]}, {_because(waits.reason)}"), waits.reason


def _step(
    sheet: SheetInput,
    step: WorkStep,
    anchor: str,
    at: int,
    reason: str,
    built: list[AsBuilt],
    paper: bool,
) -> Step:
    build = sheet.build
    writes = tuple(
        WriteIn(f"{anchor}-{i}", m.label, m.unit, _expected(sheet, step, m.expect))
        for i, m in enumerate(step.measures)
    )
    return Step(
        str(at),
        anchor,
        (Span(told_words(step.text)),),
        step_facts(build, step, paper=paper),
        reason,
        writes,
        anchor,
        _picture(build, step),
        _caution(step),
        tuple(map(built_words, built)),
    )


def _bar(step: WorkStep, gates: tuple[Gate, ...], built: list[AsBuilt]) -> GateBar:
    """A gate of the first power-up."""
    gate = next((g for g in gates if g.letter == step.gate), None)
    title, what = f"Gate {step.gate}", gate.title if gate is not None else ""
    said = "".join(f" {built_words(line)}" for line in built)
    words = (
        f"{what}. It begins and ends with the power off. Go on when it has passed; see First"
        f" power-up.{said}"
    )
    return GateBar(title, words, f"at-gate-{step.gate.casefold()}")


def plan_items(sheet: SheetInput, *, paper: bool = False) -> tuple[Step | GateBar, ...]:
    """Steps and gates in order; empty where the constraints contradict each other."""
    plan = sheet.results.order
    if isinstance(plan, Cycle):
        return ()
    built = _built(plan, sheet.build)
    items: list[Step | GateBar] = []
    number_, before = 0, ""
    names: dict[str, str] = {}
    anchors = step_anchors(plan.steps)
    for step in plan.steps:
        told = built.get(step.id, [])
        if step.gate:
            items.append(_bar(step, sheet.results.gates, told))
            names[step.id] = f"gate {step.gate}"
        else:
            number_ += 1
            names[step.id] = f"step {number_}"
            reason, now = _reason(sheet.build, plan, step, names)
            shown = "" if now == before else reason  # a reason that was just read is not said again
            before = now
            items.append(_step(sheet, step, anchors[step.id], number_, shown, told, paper))
    return tuple(items)


def _times(count: int, what: str) -> str:
    return f"{count} {what}" + ("" if count == 1 else "s")


def how_ordered(plan: Plan) -> Paragraph:
    """How many steps there are, and how few changes their order needs."""
    mine, plain = plan.changes, plan.plain
    joints = sum(1 for s in plan.steps if s.joint is not None)
    sure = "No order has fewer." if plan.exact else "A better order may exist: the search stopped."
    own = (
        " The builder's own steps are where their lines put them."
        if any(s.own is not None for s in plan.steps)
        else ""
    )
    return Paragraph(
        (
            Span(
                f"{len(plan.steps)} steps, {joints} joints. This order changes little:"
                f" {_times(mine.tips, 'change')} of tip (a plain order: {plain.tips}), {mine.irons}"
                f" of temperature ({plain.irons}), {mine.boards} of board ({plain.boards}),"
                f" {mine.sides} of side ({plain.sides}). {sure}{own} Ticks stay on this device."
            ),
        ),
        quiet=True,
    )


def _heat_words(sheet: SheetInput) -> Paragraph | None:
    """Which joint is the hardest, and what the figures and ranges rest on."""
    known = [j for j in sheet.results.joints if isinstance(j.heat.flow, Figure)]
    if not known:
        return None
    hardest = max(known, key=lambda j: j.heat.power)
    fine, broad = PRACTICE["fine"], PRACTICE["broad"]
    flow: Number = number(hardest.heat.flow)
    text = (
        f" is the heat that {hardest.contact}, the hardest joint, loses while it is hot. Use the"
        f" {hardest.heat.tip} tip there. Ranges of temperature and time ({fine.iron[0]} °C and"
        f" {fine.dwell[0]} s to {broad.iron[1]} °C and {broad.dwell[1]} s for tin-lead) are bench"
        " practice without a source. If a joint does not flow in its time, take the iron off. Let"
        " the board cool, then add flux. Use a wider tip that does not touch the next pad, or warm"
        f" the board from below to about {WARM} °C. More time lifts the copper."
    )
    return Paragraph((flow, Span(text)), quiet=True)


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


def order_of_work(sheet: SheetInput, *, paper: bool = False) -> Section:
    """Every step with its tick box."""
    plan = sheet.results.order
    if isinstance(plan, Cycle):
        return contradiction(plan)
    blocks: list[Block | Section] = [] if paper else [how_ordered(plan)]
    heat = _heat_words(sheet)
    if heat is not None:
        blocks.append(heat)
    if plan.dropped:
        blocks.append(_not_kept(plan))
    blocks.append(Steps(plan_items(sheet, paper=paper)))
    if sheet.build.source.as_built and not paper:
        blocks.append(Section("as-built", "As built", (as_built_table(sheet),), 3))
    return Section("order", "Order of work", tuple(blocks))
