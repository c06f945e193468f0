"""What came back from the bench: deviations and readings with their date, and lines to write more
into.
"""

from builder.model.source.build_source import AsBuilt
from builder.pages.blocks import Cell, Column, Row, Span, Table, WriteIn
from builder.pages.sheet_input import SheetInput


def _place(line: AsBuilt) -> str:
    """The step that it is about, and the contact or motor where it was read."""
    return ", ".join(word for word in (line.step, line.at) if word)


def as_built_table(sheet: SheetInput, blank: int = 0) -> Table:
    """Deviations and readings, oldest first, then blank lines."""
    lines = sorted(sheet.build.source.as_built, key=lambda a: a.date)
    rows = [
        Row(
            tuple(
                Cell((Span(text or ""),))
                for text in (a.date.isoformat(), _place(a), a.text, a.measured)
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
