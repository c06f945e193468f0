"""What was read and not computed, as rows by file and part: what it is, its value, and its keys."""

from collections.abc import Iterator, Sequence

from builder.pages.blocks import Cell, Column, Paragraph, Row, Span, Table
from builder.pages.derivations.leaf_groups import LeafGroup, Leaves
from builder.pages.derivations.opened import Opened

_COLUMNS = (
    Column("What", plain=True),
    Column("Value", align="right", plain=True),
    Column("Read from", plain=True),
)


def _text(text: str) -> Cell:
    return Cell((Span(text),))


def _sentences(note: str) -> str:
    """A note in sentences of its own, where its parts stand behind semicolons."""
    first, *more = note.removesuffix(".").split("; ")
    return ". ".join((first, *(part[:1].upper() + part[1:] for part in more))) + "."


def _rows(group: LeafGroup, columns: int, opened: Opened) -> Iterator[Row]:
    anchor = opened.heads.get(group.key, "")
    yield Row((_text(group.heading),), kind="group", anchor=anchor)
    for figure, name, rest in zip(group.figures, group.names, group.rests, strict=True):
        what = Cell((Span(name),), anchor=opened.short.get(figure.key, ""))
        cells = (what, _text(opened.value(figure)), _text(rest))
        yield Row(cells[:columns], anchor=figure.anchor)


def _table(groups: Sequence[LeafGroup], columns: int, opened: Opened) -> Table:
    rows = tuple(row for group in groups for row in _rows(group, columns, opened))
    return Table("", _COLUMNS[:columns], rows, stack=True)


def leaf_blocks(leaves: Leaves, opened: Opened) -> list[Paragraph | Table]:
    """What was read, below what holds for all of it: first the groups whose headings say all that
    there is to say of their rows.
    """
    said = [
        "Every spread is one standard deviation.",
        "A value has the basis that its heading names, unless its row names another.",
        *(f"Note {number}: {_sentences(note)}" for note, number in leaves.notes.items()),
    ]
    said_above = [g for g in leaves.groups if not any(g.rests)]
    other = [g for g in leaves.groups if any(g.rests)]
    tables = [_table(said_above, 2, opened)] if said_above else []
    tables += [_table(other, 3, opened)] if other else []
    return [Paragraph((Span(" ".join(said)),), quiet=True), *tables]
