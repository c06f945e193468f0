"""The steps of the work as the hand takes them: groups with a box for each of their parts, and the
bars of the gates. For the page and for paper.
"""

from dataclasses import replace

from builder.compute.order.builder_steps import meant
from builder.compute.order.group_words import piece_of, piece_words, says_it_once
from builder.compute.order.steps.joint_steps import joint_words
from builder.compute.order.steps.work_step import Gathered, Measure, StepGroup, WorkStep
from builder.compute.order.work_order import Cycle, Plan
from builder.compute.power_up.gate import Gate
from builder.frozen import value_class
from builder.model.build import Build
from builder.model.source.build_along import Photo
from builder.model.source.build_log import AsBuilt
from builder.pages.blocks import GateBar, Notice, Picture, Span, Step, WriteIn
from builder.pages.sheet_input import SheetInput
from builder.pages.told_words import told_words
from builder.pages.views.step_picture import StepPictures
from builder.pages.work.photograph import photograph, photographs_taken
from builder.pages.work.reading_words import measured_words
from builder.pages.work.step_anchors import step_anchors
from builder.pages.work.step_cautions import group_cautions
from builder.pages.work.step_facts import StepFacts, shared_facts, step_facts
from builder.rounding import rounded
from builder.rules.cautions import cautions_for

Built = dict[str, list[AsBuilt]]


def _picture(build: Build, step: WorkStep) -> Picture | None:
    own = build.source.steps[step.own] if step.own is not None else None
    if own is None or own.photo is None:
        return None
    return Picture(f"{build.name}/{own.photo}", own.alt or own.text)


def _built(plan: Plan, build: Build) -> Built:
    """What came back from the bench, by the first step that it means."""
    known = Gathered({s.id: s for s in plan.steps})
    out: Built = {}
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


def _expected(sheet: SheetInput, step: WorkStep, measure: Measure) -> str:
    """What a reading is expected to be; for the scale, what the weight table says."""
    if step.id != "balance":
        return measured_words(measure)
    said = measure.expect
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


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:] + ("" if text.endswith((".", "!", "?")) else ".")


def because(reason: str) -> str:
    """A reason behind 'because': a builder's own begins with a capital, unless it is a name in
    capitals.
    """
    plain = (
        reason[:1].lower() + reason[1:] if reason[1:2].islower() or reason[1:2] == " " else reason
    )
    return f"because {plain}"


def _reason(build: Build, plan: Plan, group: StepGroup, names: dict[str, str]) -> tuple[str, str]:
    """Why a group stands where it does, as a sentence, and what would make the same reason read
    twice.

    `names` are what came before, as the reader sees it: 'step 7', 'gate B'.
    """
    first = group.steps[0]
    own = build.source.steps[first.own] if first.own is not None else None
    if own is not None and own.reason:
        return _sentence(own.reason), own.reason
    if own is not None and not own.before and not own.after and names:
        last = next(reversed(names.values()))
        return f"The build names no place for it: put after {last}.", first.id
    waits = plan.group_waits_for(group)
    if waits is None:
        return "", ""
    return _sentence(f"After {names[waits.before]}, {because(waits.reason)}"), waits.reason


@value_class(frozen=True, eq=False)
class _Sheet:
    """What every step of a sheet is made with."""

    sheet: SheetInput
    plan: Plan
    anchors: dict[str, str]
    built: Built
    taken: dict[str, list[Photo]]
    cautions: dict[str, tuple[Notice, ...]]
    paper: bool
    pictures: StepPictures


def _one(of: _Sheet, step: WorkStep, words: str, number: str = "", reason: str = "") -> Step:
    """One step, or one part of a group, with its box."""
    anchor, build = of.anchors[step.id], of.sheet.build
    writes = tuple(
        WriteIn(f"{anchor}-{i}", m.label, m.unit, _expected(of.sheet, step, m), m.count)
        for i, m in enumerate(step.measures)
    )
    return Step(
        number,
        anchor,
        (Span(words),),
        step_facts(build, step, paper=of.paper),
        reason,
        writes,
        anchor,
        _picture(build, step),
        built=tuple(map(built_words, of.built.get(step.id, ()))),
        photos=tuple(photograph(build, p) for p in of.taken.get(step.id, ())),
    )


def _first_big(words: str) -> str:
    return words[:1].upper() + words[1:]


def _part_words(build: Build, step: WorkStep, *, once: bool) -> str:
    """What is done at one box: the wire and its contact, the piece, or the whole sentence."""
    if step.joint is not None:
        said = joint_words(build, step.joint).removeprefix("Solder ").removesuffix(".")
        return _first_big(said)
    return (
        _first_big(f"{piece_words(piece_of(step))}{step.place}") if once else told_words(step.text)
    )


def _grouped(of: _Sheet, group: StepGroup, number: str, reason: str) -> Step:
    """A group: its words, what holds for all of it, and its parts with their boxes."""
    once = says_it_once(group.steps)
    made = [_one(of, s, _part_words(of.sheet.build, s, once=once)) for s in group.steps]
    pairs = list(zip(group.steps, made, strict=True))
    hot = [part.facts for step, part in pairs if step.joint is not None]
    shared = shared_facts(hot or [part.facts for part in made])
    parts = tuple(replace(p, facts=_left(p.facts, shared)) for p in made)
    anchor = of.anchors[group.id]
    text = (Span(told_words(group.text)),)
    return Step(number, anchor, text, shared, reason, anchor=anchor, parts=parts)


def _left(facts: StepFacts, shared: StepFacts) -> StepFacts:
    return tuple(f for f in facts if f not in shared)


def _bar(step: WorkStep, gates: tuple[Gate, ...], built: list[AsBuilt], *, paper: bool) -> GateBar:
    """A gate of the first power-up. On a screen its heading is right below it."""
    gate = next((g for g in gates if g.letter == step.gate), None)
    title, what = f"Gate {step.gate}", gate.title if gate is not None else ""
    said = "".join(f" {built_words(line)}" for line in built)
    words = f"It begins and ends with the power off. Go on when it has passed.{said}"
    shown = f"{what}. {words}" if paper else words
    return GateBar(title, shown, f"at-gate-{step.gate.casefold()}", what)


def plan_items(sheet: SheetInput, *, paper: bool = False) -> tuple[Step | GateBar, ...]:
    """Steps and gates in order; empty where the constraints contradict each other."""
    plan = sheet.results.order
    if isinstance(plan, Cycle):
        return ()
    known = {c.key: c for c in cautions_for(sheet.build)}
    cautions = group_cautions(plan, known)
    pictures = StepPictures(sheet)
    came = _built(plan, sheet.build), photographs_taken(plan, sheet.build)
    of = _Sheet(sheet, plan, step_anchors(plan), *came, cautions, paper, pictures)
    items: list[Step | GateBar] = []
    before, names = "", dict[str, str]()
    for group in plan.groups:
        step = group.steps[0]
        if step.gate:
            told = of.built.get(step.id, [])
            items.append(_bar(step, sheet.results.gates, told, paper=paper))
            names[step.id] = f"gate {step.gate}"
            continue
        number = str(plan.numbers[step.id])
        reason, now = _reason(sheet.build, plan, group, names)
        names |= dict.fromkeys((s.id for s in group.steps), f"step {number}")
        shown = "" if now == before else reason  # a reason that was just read is not said again
        before = now
        alone = len(group.steps) == 1
        words = told_words(step.text)
        made = _one(of, step, words, number, shown) if alone else _grouped(of, group, number, shown)
        drawing = None if paper else of.pictures.of(group)
        told_first = of.cautions.get(group.id, ())
        items.append(replace(made, drawing=drawing, cautions=told_first))
    return tuple(items)
