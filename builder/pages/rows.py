"""Rows and headings of tables, written as they are read: `table_row("Mass", number(mass), "checked")`."""

from typing import Literal

from builder.pages.blocks import Cell, Column, Inline, Row, Span

CellLike = Cell | Inline | str


def table_row(
    *parts: CellLike, kind: Literal["", "group", "subtotal", "total"] = "", anchor: str = ""
) -> Row:
    """A row of a table: words and numbers become cells, a cell of its own stays as it is."""
    return Row(tuple(map(_cell, parts)), kind, anchor)


def _cell(part: CellLike) -> Cell:
    """A cell of one number or of words."""
    if isinstance(part, Cell):
        return part
    return Cell((Span(part),) if isinstance(part, str) else (part,))


def table_columns(*headings: Column | str) -> tuple[Column, ...]:
    """The columns of a table: a plain heading is one of words."""
    return tuple(Column(h) if isinstance(h, str) else h for h in headings)


def right_column(heading: str) -> Column:
    """A column of numbers."""
    return Column(heading, align="right")
