"""Short anchors that no link of the page leads to are left out: they are not for other pages."""

from collections.abc import Container, Iterable, Iterator
from dataclasses import replace

from builder.pages.blocks import Block, Cell, Row, Section, Span, Table


def _tables(sections: Iterable[Section]) -> Iterator[Table]:
    for section in sections:
        yield from (b for b in section.blocks if isinstance(b, Table))


def _links(tables: Iterable[Table]) -> frozenset[str]:
    pieces = (p for t in tables for r in t.rows for c in r.cells for p in c.pieces)
    return frozenset(p.link[1:] for p in pieces if isinstance(p, Span) and p.link[:1] == "#")


def _cell(cell: Cell, idle: Container[str]) -> Cell:
    return replace(cell, anchor="") if cell.anchor in idle else cell


def _row(row: Row, idle: Container[str]) -> Row:
    cells = tuple([_cell(c, idle) for c in row.cells])
    return replace(row, cells=cells, anchor="" if row.anchor in idle else row.anchor)


def _block(block: Block | Section, idle: Container[str]) -> Block | Section:
    if not isinstance(block, Table):
        return block
    return replace(block, rows=tuple([_row(r, idle) for r in block.rows]))


def without_idle(sections: Iterable[Section], short: Iterable[str]) -> list[Section]:
    """The sections without those of the `short` anchors that nothing leads to."""
    given = tuple(sections)
    idle = frozenset(short) - _links(_tables(given))
    return [replace(s, blocks=tuple([_block(b, idle) for b in s.blocks])) for s in given]
