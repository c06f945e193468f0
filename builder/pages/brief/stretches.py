"""The order of work on the short sheet: the stretches between its gates."""

from builder.pages.blocks import Cell, Column, GateBar, Row, Section, Span, Step, Steps, Table
from builder.pages.brief.picked import MOST_ROWS, blocks_in, rows_left
from builder.pages.numbers import cell
from builder.pages.page_map import address_of
from builder.pages.rows import table_row


def _steps_cell(build: str, run: list[Step]) -> Cell:
    first, last = run[0], run[-1]
    words = f"Step {first.number}" if first is last else f"Steps {first.number} to {last.number}"
    return Cell((Span(words, address_of(build, first.anchor)),))


def _gate_cell(build: str, bar: GateBar) -> Cell:
    words = f"{bar.title}: {bar.name}" if bar.name else bar.title
    return Cell((Span(words, address_of(build, bar.anchor)),))


def stretches(build: str, order: Section) -> Table | None:
    """A row a stretch of steps with the gate that ends it; None where there are no steps."""
    items = [i for b in blocks_in(order) if isinstance(b, Steps) for i in b.items]
    if not items:
        return None
    rows: list[Row] = []
    run: list[Step] = []
    for item in items:
        if isinstance(item, Step):
            run.append(item)
            continue
        steps = _steps_cell(build, run) if run else cell("no step between")
        rows.append(Row((steps, _gate_cell(build, item))))
        run = []
    if run:
        rows.append(table_row(_steps_cell(build, run), "done"))
    heads = (Column("Steps"), Column("Then"))
    note = rows_left(len(rows) - MOST_ROWS)
    return Table("", heads, tuple(rows[:MOST_ROWS]), stack=True, note=note)
