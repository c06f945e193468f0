"""The work on paper: steps, each board with its contacts where it is soldered, gates in their
place.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import fsum

from builder.compute.order.work_order import Cycle, Plan
from builder.pages.blocks import Block, GateBar, Illustration, Section, Steps, TwoStacks
from builder.pages.paper.gate_panel import gate_panel
from builder.pages.paper.pad_table import board_view, pad_table
from builder.pages.paper.plug_table import plug_tables
from builder.pages.paper.tips import tips_within
from builder.pages.paper.work_entries import (
    Entry,
    as_printed,
    between_gates,
    by_board,
    entries,
    lines_of_steps,
    lines_printed,
    solderings,
    spans_at_boards,
)
from builder.pages.sections.order_of_work import before_the_steps, contradiction
from builder.pages.sheet_input import SheetInput

_LINE = 4.6  # mm that a line takes


@dataclass(frozen=True)
class _Work:
    """What all pieces of the flow share."""

    sheet: SheetInput
    plan: Plan

    def steps(self, run: Sequence[Entry]) -> list[Block]:
        """The lines of a run; nothing for none."""
        shown = [as_printed(self.sheet, self.plan, e) for e in run]
        items = tuple(s for s in shown if s is not None)
        return [Steps(items)] if items else []

    def views(self, run: Sequence[Entry]) -> tuple[Illustration, ...]:
        """The drawings of the boards that are soldered in a run."""
        numbers = solderings(run)
        found = (board_view(self.sheet, b, mine, numbers) for b, mine in by_board(run).items())
        return tuple(view for view in found if view is not None)

    def beside(self, before: Sequence[Entry], run: Sequence[Entry]) -> int:
        """How many lines before a board find room beside its drawing."""
        room = fsum(v.drawing.height for v in self.views(run)) - _LINE * lines_of_steps(run)
        count = 0
        for entry in reversed(before):
            room -= _LINE * lines_of_steps([entry])
            if room < 0 or any(s.do == "plug" for s in entry.steps):
                break
            count += 1
        return count

    def board(self, run: Sequence[Entry]) -> Section:
        """The lines in which boards are soldered, with their drawings and their contacts."""
        numbers = solderings(run)
        boards, views = by_board(run), self.views(run)
        first = next(e.number for e in run if e.joints)
        anchor = f"at-board-{next(iter(boards))}-{first}".replace(".", "-")
        heading = self.named_together(tuple(boards))
        lines: tuple[Block, ...] = tuple(self.steps(run))
        if views:
            room = fsum(v.drawing.height for v in views) - _LINE * lines_printed(lines)
            lines = (TwoStacks((*lines, *tips_within(self.sheet.build, run, room)), views),)
        table = pad_table(self.sheet, boards, numbers)
        return Section(anchor, heading, (*lines, table), 3, role="board")

    def named_together(self, boards: Sequence[str]) -> str:
        """Boards by their parts' names and as the build calls them; pieces of one part by one name."""
        found: dict[str, list[str]] = {}
        for board in boards:
            name = self.sheet.build.parts[board.split(".")[0]].part.name
            found.setdefault(name, []).append(board)
        return ", ".join(f"{name} ({' and '.join(mine)})" for name, mine in found.items())

    def run(self, run: Sequence[Entry]) -> Iterator[Block | Section]:
        """A stretch between gates. The lines before a board stand beside its drawing where there is
        room. The last of several boards is on the page of the lines behind it: a gate, which is not
        torn, would leave them alone on theirs.
        """
        done, spans = 0, spans_at_boards(run)
        for first, last in spans:
            begin = first - self.beside(run[done:first], run[first : last + 1])
            yield from self.loose(run[done:begin])
            board = self.board(run[begin : last + 1])
            done = last + 1
            ends = len(spans) > 1 and last == spans[-1][1] and done < len(run)
            yield replace(board, role="board tailed") if ends else board
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
    blocks: list[Block | Section] = [*before_the_steps(sheet, plan, paper=True)]
    work, gates = _Work(sheet, plan), {g.letter: g for g in sheet.results.gates}
    for run, bar in between_gates(entries(sheet, plan)):
        blocks += work.run(run)
        if bar is None or not isinstance(bar.shown, GateBar):
            continue
        gate = gates.get(bar.steps[0].gate)
        if gate is None:
            continue
        blocks += gate_panel(sheet, gate, bar.shown)
    return Section("order", "Order of work", tuple(blocks))
