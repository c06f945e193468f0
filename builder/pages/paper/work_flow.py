"""The work on paper: steps, each board with its contacts where it is soldered, gates in their
place.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from builder.compute.joints.joints import Joint
from builder.compute.order.steps import Why, WorkStep
from builder.compute.order.work_order import Cycle, Plan
from builder.model.build import Contact
from builder.pages.blocks import Block, GateBar, Section, Step, Steps, TwoStacks
from builder.pages.paper.gate_panel import before_gates, gate_panel
from builder.pages.paper.pad_table import board_view, pad_table
from builder.pages.paper.plug_table import plug_tables
from builder.pages.sections.order_of_work import before_the_steps, contradiction
from builder.pages.sheet_input import SheetInput
from builder.pages.work.plan_items import plan_items


@dataclass(frozen=True)
class Entry:
    """A line of the work: how it is shown, and the steps of the plan that it is."""

    shown: Step | GateBar
    steps: tuple[WorkStep, ...]

    @property
    def joints(self) -> tuple[Joint, ...]:
        """What is soldered in it."""
        return tuple(s.joint for s in self.steps if s.joint is not None)

    @property
    def boards(self) -> frozenset[str]:
        """The boards that the iron touches in it."""
        soldered = {j.board for j in self.joints}
        return frozenset(soldered | {s.board for s in self.steps if s.do == "tin" and s.board})

    @property
    def number(self) -> str:
        """Its number on the sheet."""
        return self.shown.number if isinstance(self.shown, Step) else ""


def entries(sheet: SheetInput, plan: Plan) -> tuple[Entry, ...]:
    """All lines of the work in order."""
    items = plan_items(sheet, paper=True)
    return tuple(Entry(i, g.steps) for i, g in zip(items, plan.groups, strict=True))


def _kept_reason(sheet: SheetInput, plan: Plan, steps: Sequence[WorkStep]) -> bool:
    """Whether paper says why a line stands where it does: the builder's own words, or safety."""
    owns = [sheet.build.source.steps[s.own] for s in steps if s.own is not None]
    if any(own.reason for own in owns):
        return True
    waits = [plan.waits_for(s.id) for s in steps]
    return any(w is not None and w.why is Why.SAFETY for w in waits)


def _as_printed(sheet: SheetInput, plan: Plan, entry: Entry) -> Step | None:
    """A step without what stands in the table of its board; None for a gate."""
    shown = entry.shown
    if not isinstance(shown, Step):
        return None
    reason = shown.reason if _kept_reason(sheet, plan, entry.steps) else ""
    if not entry.joints:
        return replace(shown, reason=reason)
    pairs = zip(shown.parts, entry.steps, strict=False)
    parts = tuple(part for part, step in pairs if step.joint is None)
    return replace(shown, reason=reason, facts=(), parts=parts)


def _stretches(found: Sequence[Entry]) -> Iterator[tuple[list[Entry], Entry | None]]:
    """The lines up to each gate with that gate, then the rest."""
    run: list[Entry] = []
    for entry in found:
        if isinstance(entry.shown, GateBar):
            yield run, entry
            run = []
        else:
            run.append(entry)
    yield run, None


def _soldered(found: Sequence[Entry]) -> set[str]:
    return {j.board for e in found for j in e.joints}


def _spans(run: Sequence[Entry]) -> list[tuple[int, int]]:
    """From the first to the last line in which each board is soldered; those that overlap are one."""
    spans = []
    for board in _soldered(run):
        at = [i for i, e in enumerate(run) if board in e.boards]
        spans.append((at[0], at[-1]))
    merged: list[tuple[int, int]] = []
    for first, last in sorted(spans):
        if merged and first <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(last, merged[-1][1]))
        else:
            merged.append((first, last))
    return merged


@dataclass(frozen=True)
class _Work:
    """What all pieces of the flow share."""

    sheet: SheetInput
    plan: Plan

    def steps(self, run: Sequence[Entry]) -> list[Block]:
        """The lines of a run; nothing for none."""
        shown = [_as_printed(self.sheet, self.plan, e) for e in run]
        items = tuple(s for s in shown if s is not None)
        return [Steps(items)] if items else []

    def board(self, run: Sequence[Entry]) -> Section:
        """The lines in which boards are soldered, with their drawings and tables of contacts."""
        numbers: Mapping[Contact, str] = {j.contact: e.number for e in run for j in e.joints}
        names = list(dict.fromkeys(j.board for e in run for j in e.joints))
        views: list[Block] = []
        tables: list[Block] = []
        for name in names:
            mine = [j for e in run for j in e.joints if j.board == name]
            view = board_view(self.sheet, name, mine, numbers)
            views += [view] if view is not None else []
            tables.append(pad_table(self.sheet, name, mine, numbers))
        anchor = f"at-board-{names[0]}-{run[0].number}".replace(".", "-")
        heading = ", ".join(self.named(n) for n in names)
        lines: tuple[Block, ...] = tuple(self.steps(run))
        if views:
            lines = (TwoStacks(lines, tuple(views)),)
        return Section(anchor, heading, (*lines, *tables), 3, role="board")

    def named(self, board: str) -> str:
        """A board by its part's name and as the build calls it."""
        part = self.sheet.build.parts[board.split(".")[0]].part
        return f"{part.name} ({board})"

    def run(self, run: Sequence[Entry]) -> Iterator[Block | Section]:
        """A stretch between gates."""
        done = 0
        for first, last in _spans(run):
            yield from self.loose(run[done:first])
            yield self.board(run[first : last + 1])
            done = last + 1
        yield from self.loose(run[done:])

    def loose(self, run: Sequence[Entry]) -> Iterator[Block]:
        """Lines without a joint; a harness has its contacts with the line that plugs it."""
        done = 0
        for i, entry in enumerate(run):
            tables = [t for s in entry.steps if s.do == "plug" for t in plug_tables(self.sheet, s)]
            if tables:
                yield from self.steps(run[done : i + 1])
                yield from tables
                done = i + 1
        yield from self.steps(run[done:])


def work_flow(sheet: SheetInput) -> Section:
    """The order of work with its gates and boards; the lines that contradict each other where no
    order keeps them.
    """
    plan = sheet.results.order
    if isinstance(plan, Cycle):
        return contradiction(plan)
    blocks: list[Block | Section] = [*before_the_steps(sheet, plan)]
    work, gates = _Work(sheet, plan), {g.letter: g for g in sheet.results.gates}
    told = False
    for run, bar in _stretches(entries(sheet, plan)):
        blocks += work.run(run)
        if bar is None or not isinstance(bar.shown, GateBar):
            continue
        gate = gates.get(bar.steps[0].gate)
        if gate is None:
            continue
        if not told:
            blocks.append(before_gates(sheet))
            told = True
        blocks.append(gate_panel(sheet, gate, bar.shown))
    return Section("order", "Order of work", tuple(blocks))
