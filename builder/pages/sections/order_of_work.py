"""The order of work with the soldering order: each line with its place, heat and reason, gates as bars between."""

from builder.compute.joints import Joint
from builder.compute.pinout import letters
from builder.compute.steps import WorkStep
from builder.compute.work_order import Cycle, Plan
from builder.model.build import Build
from builder.pages.blocks import (
    Block,
    Bullets,
    GateBar,
    Notice,
    Paragraph,
    Picture,
    Section,
    Span,
    Step,
    Steps,
    WriteIn,
)
from builder.pages.numbers import rounded
from builder.pages.sheet_input import SheetInput

_STRIP = {"fine": 2, "medium": 3, "broad": 4}  # mm of bare wire by tip class (common practice, no source)


def _wires(joint: Joint) -> str:
    words = []
    for join in joint.wires:
        wire = join.wire
        if wire is None:
            continue
        colour = f"{wire.colour} {letters(wire.colour)}".strip() if wire.colour else ""
        length = (
            f"{rounded(1000 * wire.length.value, 0)} mm"
            if wire.length is not None
            else f"trim to {rounded(1000 * wire.trim_to.value, 0)} mm"
            if wire.trim_to is not None
            else ""
        )
        words.append(" ".join(w for w in (colour, wire.gauge.label if wire.gauge else "fitted lead", length) if w))
    return "; ".join(words)


def _facts(step: WorkStep) -> tuple[tuple[str, str], ...]:
    joint = step.joint
    if joint is None:
        return (("tip", step.tip),) if step.tip else ()
    heat = joint.heat
    facts = [
        ("wire", _wires(joint)),
        ("strip", f"{_STRIP[heat.tip]} mm"),
        ("tip", heat.tip),
        ("iron", f"{heat.iron[0]} to {heat.iron[1]} °C"),
        ("dwell", f"{heat.dwell[0]} to {heat.dwell[1]} s"),
    ]
    if joint.side != "top":
        facts.append(("side", "underside"))
    if joint.neighbours:
        near = ", ".join(f"{name}" + (f" at {1000 * gap:g} mm" if gap else "") for name, gap in joint.neighbours)
        facts.append(("bridges to watch", near))
    return tuple(f for f in facts if f[1])


def _picture(build: Build, step: WorkStep) -> Picture | None:
    own = build.source.steps[step.own] if step.own is not None else None
    if own is None or own.photo is None:
        return None
    where = build.where("steps", step.own or 0, "photo")
    folder = where.file.split("/")[0]
    return Picture(f"{folder}/{own.photo}", own.alt or own.text)


def step_anchor(step: WorkStep) -> str:
    """The id of a step, the same as long as its name is."""
    return "step-" + "".join(c if c.isalnum() and c.isascii() else "plus" if c == "+" else "-" for c in step.id)


def _step(build: Build, plan: Plan, step: WorkStep, number: int) -> Step:
    reasons = plan.reasons(step.id)
    own = build.source.steps[step.own] if step.own is not None else None
    reason = (own.reason if own is not None and own.reason else "") or "; ".join(reasons[:2])
    writes = (WriteIn(f"step-{step.id}", step.measure[0], step.measure[2], step.measure[1]),) if step.measure else ()
    return Step(
        str(number),
        f"step-{step.id}",
        (Span(step.text),),
        _facts(step),
        reason[:1].upper() + reason[1:],
        writes,
        step_anchor(step),
        _picture(build, step),
    )


def plan_items(sheet: SheetInput) -> tuple[Step | GateBar, ...]:
    """Steps and gates in order; empty where the constraints contradict each other."""
    plan = sheet.results.order
    if isinstance(plan, Cycle):
        return ()
    items: list[Step | GateBar] = []
    number = 0
    last = [s.gate for s in plan.steps if s.gate]
    for step in plan.steps:
        if step.gate:
            gates = sheet.results.gates
            if step.gate == last[-1] and len(gates) > len(last):
                through = f"Gates {step.gate} to {gates[-1].letter}"
                items.append(
                    GateBar(
                        through,
                        "each load in turn. Nothing goes on before they have passed.",
                        f"at-gate-{step.gate.casefold()}",
                    )
                )
            else:
                gate = next((g for g in gates if g.letter == step.gate), None)
                items.append(
                    GateBar(
                        f"Gate {step.gate}",
                        (gate.title if gate else "") + ". Nothing goes on before it has passed.",
                        f"at-gate-{step.gate.casefold()}",
                    )
                )
            continue
        number += 1
        items.append(_step(sheet.build, plan, step, number))
    return tuple(items)


def order_of_work(sheet: SheetInput) -> Section:
    """Every step with its tick box."""
    plan = sheet.results.order
    if isinstance(plan, Cycle):
        lines = tuple((Span(f"{c.before} comes before {c.after}: {c.reason}"),) for c in plan.constraints)
        return Section(
            "order",
            "Order of work",
            (
                Notice(None, "The order cannot be made: these lines contradict each other.", (), tone="fault"),
                Bullets(lines),
            ),
        )
    joints = [s for s in plan.steps if s.joint is not None]
    intro: list[Block] = [
        Paragraph(
            (
                Span(
                    f"{len(plan.steps)} steps, {len(joints)} joints. The order keeps {len(plan.constraints)} constraints and goes from tip to tip, "
                    "board to board and side to side as seldom as they let it. Ticks stay on this device."
                ),
            )
        )
    ]
    return Section("order", "Order of work", (*intro, Steps(plan_items(sheet))))
