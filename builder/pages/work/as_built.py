"""What came back from the bench: deviations and readings with their date, and lines to write more
into.
"""

from builder.compute.order.builder_steps import meant
from builder.compute.order.steps.work_step import Gathered
from builder.compute.order.work_order import Cycle
from builder.model.source.build_log import AsBuilt
from builder.pages.blocks import Cell, Column, Row, Span, Table, WriteIn
from builder.pages.sheet_input import SheetInput


def step_place(sheet: SheetInput, name: str) -> str:
    """A step by its number, as it is printed; a gate, and a step of no plan, by its name."""
    plan = sheet.results.order
    if isinstance(plan, Cycle):
        return name
    known = Gathered({s.id: s for s in plan.steps})
    first = next((known.steps[i] for i in meant(known, name)), None)
    if first is None or first.gate:
        return name
    number = f"step {plan.numbers[first.id]}"
    return number if first.own is not None else f"{number}: {name}"


def _place(sheet: SheetInput, line: AsBuilt) -> str:
    """The step that it is about, and the contact or motor where it was read."""
    step = step_place(sheet, line.step) if line.step else ""
    return ", ".join(word for word in (step, line.at) if word)


def as_built_table(sheet: SheetInput, blank: int = 0) -> Table:
    """Deviations and readings, oldest first, then blank lines."""
    lines = sorted(sheet.build.source.as_built, key=lambda a: a.date)
    rows = [
        Row(
            tuple(
                Cell((Span(text or ""),))
                for text in (a.date.isoformat(), _place(sheet, a), a.text, a.measured)
            )
        )
        for a in lines
    ]
    rows += [
        Row(tuple(Cell((WriteIn(f"as-built-{i}-{k}", ""),)) for k in range(4)))
        for i in range(blank)
    ]
    heads = (Column("Date"), Column("Step"), Column("What was done otherwise"), Column("Reading"))
    return Table("Deviations and readings", heads, tuple(rows), stack=not blank)
