"""What stands on one screen at the bench: a step with its boxes, or a stage of a gate; in the same
blocks as the page of the work has them.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from hashlib import sha256

from builder.compute.joints.joints import Joint
from builder.compute.order.steps.work_step import StepGroup
from builder.compute.order.work_order import Cycle, Plan
from builder.compute.power_up.gate import Gate
from builder.pages.bench.bands import pair_gate
from builder.pages.bench.step_fields import with_fields
from builder.pages.blocks import Block, GateBar, Picture, Section, Step, Steps
from builder.pages.page_text import words
from builder.pages.sections.order_of_work import contradiction
from builder.pages.sheet_input import SheetInput
from builder.pages.work.gate_procedure import gate_blocks, trip_notice
from builder.pages.work.plan_items import plan_items
from builder.pages.work.step_anchors import step_anchors

_LETTERS = 8  # of a digest that tells two wordings of one step apart
_TITLE = 70  # letters of a step in a list


@dataclass(frozen=True)
class Screen:
    """One screen: the id of what it shows, its stage and title, what tells one wording of it from
    another, the names of its steps in the build, the letter of its gate, and how long the iron
    stays (s: from, to) by the id of a joint's box.
    """

    anchor: str
    stage: str
    title: str
    wording: str
    steps: tuple[str, ...]
    gate: str = ""
    dwell: tuple[tuple[str, tuple[int, int]], ...] = ()

    def as_plain(self) -> dict[str, object]:
        """As the page's script reads it."""
        return {
            "id": self.anchor,
            "stage": self.stage,
            "title": self.title,
            "wording": self.wording,
            "step": self.steps[0],
            "gate": self.gate,
            "dwell": dict(self.dwell),
        }


@dataclass(frozen=True)
class Bench:
    """All sections of the work in order, and the screens that they hold."""

    sections: tuple[Section, ...]
    screens: tuple[Screen, ...]


def _digest(*said: object) -> str:
    return sha256(repr(said).encode()).hexdigest()[:_LETTERS]


def _told(step: Step) -> tuple[object, ...]:
    """What a step tells the hand; its number and its reason change with other steps."""
    fields = tuple((w.key, w.expect) for w in step.write_ins)
    return (step.text, step.facts, fields, step.cautions, tuple(map(_told, step.parts)))


def _told_at_gate(stage: Section) -> tuple[Block | Section, ...]:
    """What a stage tells the hand: not what was photographed there."""
    return tuple(b for b in stage.blocks if not isinstance(b, Picture))


def _short(text: str) -> str:
    plain = " ".join(text.split())
    return plain if len(plain) <= _TITLE else plain[:_TITLE].rsplit(" ", 1)[0] + " …"


def _dwell(joint: Joint) -> tuple[int, int]:
    first, last = joint.heat.dwell
    return (first, last) if joint.heat.tip != "broad" and first < last else (0, last)


def _step_screen(anchors: Mapping[str, str], group: StepGroup, item: Step, stage: str) -> Screen:
    hot = [(anchors[s.id], _dwell(s.joint)) for s in group.steps if s.joint is not None]
    title = f"{item.number}. {_short(words(item.text))}"
    names = tuple(s.id for s in group.steps)
    return Screen(item.anchor, stage, title, _digest(_told(item)), names, dwell=tuple(hot))


def _gate_sections(sheet: SheetInput, gate: Gate) -> Iterator[Section]:
    """The stages of a gate; what stands before the first is one too."""
    blocks = gate_blocks(sheet, pair_gate(sheet, gate))
    first = next(i for i, b in enumerate(blocks) if isinstance(b, Section))
    ready: tuple[Block | Section, ...] = (trip_notice(sheet), *blocks[:first])
    anchor = f"gate-{gate.letter.casefold()}-0"
    yield Section(anchor, "0. Get the supply ready", ready, 3)
    for block in blocks[first:]:
        if isinstance(block, Section):
            yield replace(block, level=3)


def _gate(sheet: SheetInput, gate: Gate, step: str) -> tuple[Section, list[Screen]]:
    stages = tuple(_gate_sections(sheet, gate))
    name = f"Gate {gate.letter}"
    heading = f"{name}: {gate.title}"
    screens = [
        Screen(s.anchor, name, s.heading, _digest(_told_at_gate(s)), (step,), gate.letter)
        for s in stages
    ]
    return Section(f"gate-{gate.letter.casefold()}", heading, stages, role="gate"), screens


def _stage_name(letter: str) -> str:
    return f"To gate {letter}" if letter else "After the last gate"


def _runs(sheet: SheetInput, plan: Plan) -> Iterator[tuple[str, list[tuple[StepGroup, Step]], str]]:
    """The steps between two gates: the letter of the gate that ends them, and its step."""
    run: list[tuple[StepGroup, Step]] = []
    for group, item in zip(plan.groups, plan_items(sheet), strict=True):
        if isinstance(item, GateBar):
            yield group.gate, run, group.steps[0].id
            run = []
        else:
            run.append((group, with_fields(sheet, group, item)))
    yield "", run, ""


def screens_of(sheet: SheetInput) -> Bench:
    """Every step and gate as screens; the contradiction where no order keeps the lines."""
    plan = sheet.results.order
    if isinstance(plan, Cycle):
        return Bench((contradiction(plan),), ())
    gates = {g.letter: g for g in sheet.results.gates}
    anchors = step_anchors(plan)
    sections: list[Section] = []
    screens: list[Screen] = []
    for letter, run, step in _runs(sheet, plan):
        name = _stage_name(letter)
        if run:
            items = tuple(item for _, item in run)
            anchor = f"to-gate-{letter.casefold() or 'end'}"
            sections.append(Section(anchor, name, (Steps(items),)))
            screens += [_step_screen(anchors, group, item, name) for group, item in run]
        if letter in gates:
            section, stages = _gate(sheet, gates[letter], step)
            sections.append(section)
            screens += stages
    return Bench(tuple(sections), tuple(screens))
