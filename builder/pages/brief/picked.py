"""Tables and pictures of a section for the short sheet: at most ten rows, what is bad before the
rest, without the anchors that they have on their own page.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from builder.pages.blocks import Block, Illustration, Paragraph, Row, Section, Side, Span, Table
from builder.pages.page_map import address_of

MOST_ROWS = 10


def blocks_in(section: Section) -> Iterator[Block]:
    """The blocks of a section and of those within it, in the order in which they are read."""
    for item in section.blocks:
        if isinstance(item, Section):
            yield from blocks_in(item)
        elif isinstance(item, Side):
            yield from (item.first, item.second)
        else:
            yield item


def table_in(section: Section, anchor: str = "") -> Table | None:
    """The first table of a section, or the one of that anchor."""
    tables = (b for b in blocks_in(section) if isinstance(b, Table))
    return next((t for t in tables if not anchor or t.anchor == anchor), None)


def picture_in(section: Section) -> Illustration | None:
    """The first drawing of a section."""
    drawn = next((b for b in blocks_in(section) if isinstance(b, Illustration)), None)
    return replace(drawn, anchor="") if drawn is not None else None


def _is_bad(row: Row) -> bool:
    return any(c.tone == "bad" for c in row.cells)


def _kept(rows: Sequence[Row]) -> list[Row]:
    """Ten rows at most in their order: with those that are bad, and the heading of their group."""
    if len(rows) <= MOST_ROWS:
        return list(rows)
    heading: dict[int, int] = {}
    last = -1
    for at, row in enumerate(rows):
        last = at if row.kind == "group" else last
        heading[at] = last
    wanted: set[int] = set()
    for at in sorted(range(len(rows)), key=lambda i: (not _is_bad(rows[i]), i)):
        with_heading = {at, heading[at]} - {-1}
        if rows[at].kind != "group" and len(wanted | with_heading) <= MOST_ROWS:
            wanted |= with_heading
    return [rows[at] for at in sorted(wanted)]


def shortened(table: Table) -> Table:
    """A table with at most ten rows; how many more there are stands below it."""
    kept = _kept(table.rows)
    plain = tuple(replace(row, anchor="") for row in kept)
    left = sum(r.kind != "group" for r in table.rows) - sum(r.kind != "group" for r in kept)
    note = rows_left(left) or table.note
    return replace(table, rows=plain, anchor="", note=note, sortable=False)


def rows_left(count: int) -> str:
    """What is said of rows that the short sheet leaves out."""
    if count <= 0:
        return ""
    return "1 more row is on its page." if count == 1 else f"{count} more rows are on its page."


def _without_cell(row: Row, at: int) -> Row:
    """A row without one cell; one that spans the table stays."""
    if len(row.cells) <= at:
        return row
    return replace(row, cells=(*row.cells[:at], *row.cells[at + 1 :]))


def without_column(table: Table, heading: str) -> Table:
    """A table without the column of that heading, which its own page has."""
    at = next((i for i, c in enumerate(table.columns) if c.heading == heading), None)
    if at is None:
        return table
    rows = tuple(_without_cell(row, at) for row in table.rows)
    return replace(table, columns=(*table.columns[:at], *table.columns[at + 1 :]), rows=rows)


def way_on(build: str, anchor: str, words: str) -> Paragraph:
    """The way from the short sheet to the whole of a topic."""
    return Paragraph((Span(f"{words} in full", address_of(build, anchor), strong=True),))
