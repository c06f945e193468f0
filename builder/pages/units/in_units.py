"""A page in the units of who reads it: its figures, its columns of figures, and what is cut, weighed
or held hot. A limit of the law stays in the law's unit, with the reader's beside it.
"""

from collections.abc import Iterable
from dataclasses import replace

from builder.pages.blocks import (
    Block,
    Bullets,
    Cell,
    ChapterText,
    Column,
    Facts,
    Fold,
    GateBar,
    Inline,
    Notice,
    Number,
    Page,
    Paragraph,
    Row,
    Section,
    Side,
    Span,
    Step,
    Steps,
    Table,
    TwoStacks,
)
from builder.pages.units.converted import (
    OtherUnit,
    converted,
    converted_spread,
    other_unit,
    places_of,
)
from builder.pages.units.measures import KEPT, MEASURED, in_measure, in_place_of_wire_or_iron

LAW = "site/limits/"  # what the key of a limit of the law begins with
_ABOUT = "± "
_Pieces = tuple[Inline, ...]


def _is_number(text: str) -> bool:
    return text.lstrip("+\u2212").replace(".", "", 1).isdecimal()


def _of_law(n: Number, other: OtherUnit) -> Number:
    beside = converted(n.value, other, down=True)
    return replace(n, unit=f"{n.unit} ({beside} {other.unit})")


def _number(n: Number, other: OtherUnit) -> Number:
    if not _is_number(n.value):
        return n
    spread = n.spread
    if spread.startswith(_ABOUT):
        wide = spread.removeprefix(_ABOUT)
        spread = _ABOUT + converted_spread(wide, other, places_of(n.value, other))
    unit = other.unit if n.unit else ""
    return replace(n, value=converted(n.value, other), unit=unit, spread=spread)


class _Reader:
    """One reader's choices."""

    def __init__(self, choices: frozenset[str]) -> None:
        self.choices = choices

    def _piece(self, piece: Inline) -> Inline:
        if isinstance(piece, Number):
            other = other_unit(piece.unit, self.choices)
            if other is None:
                return piece
            return (_of_law if piece.anchor.startswith(LAW) else _number)(piece, other)
        if isinstance(piece, Span) and not piece.code:
            return replace(piece, text=in_place_of_wire_or_iron(piece.text, self.choices))
        return piece

    def _pieces(self, pieces: Iterable[Inline]) -> _Pieces:
        return tuple([self._piece(p) for p in pieces])

    def _measured(self, pieces: Iterable[Inline], name: str) -> _Pieces:
        """Pieces under a heading."""
        own = self._pieces(pieces)
        if name not in MEASURED:
            return own
        return tuple(
            [
                replace(p, text=in_measure(p.text, self.choices)) if isinstance(p, Span) else p
                for p in own
            ]
        )

    def _in_column(self, piece: Inline, other: OtherUnit) -> Inline:
        """A piece of a column whose heading has the unit."""
        if isinstance(piece, Number) and not piece.unit:
            return _number(piece, other)
        if not isinstance(piece, Span):
            return piece
        if piece.text.startswith(_ABOUT):
            wide = piece.text.removeprefix(_ABOUT)
            return replace(piece, text=_ABOUT + converted_spread(wide, other))
        if _is_number(piece.text):
            return replace(piece, text=converted(piece.text, other))
        return piece

    def _cell(self, cell: Cell, column: Column | None) -> Cell:
        name = column.heading if column else ""
        other = other_unit(column.unit, self.choices) if column else None
        pieces = self._measured(cell.pieces, name)
        if other is not None:
            pieces = tuple([self._in_column(p, other) for p in pieces])
        note = in_place_of_wire_or_iron(cell.note, self.choices)
        return replace(cell, pieces=pieces, note=note)

    def _row(self, row: Row, columns: tuple[Column, ...]) -> Row:
        if len(row.cells) == 1:
            return replace(row, cells=(self._cell(row.cells[0], None),))
        pairs = zip(row.cells, columns, strict=False)
        return replace(row, cells=tuple([self._cell(cell, column) for cell, column in pairs]))

    def _column(self, column: Column) -> Column:
        other = other_unit(column.unit, self.choices)
        return column if other is None else replace(column, unit=other.unit)

    def _table(self, table: Table) -> Table:
        if table.caption in KEPT:
            return table
        columns = tuple([self._column(c) for c in table.columns])
        rows = tuple([self._row(r, table.columns) for r in table.rows])
        return replace(table, columns=columns, rows=rows)

    def _facts(self, block: Facts) -> Facts:
        items = [(name, self._cell(cell, Column(name))) for name, cell in block.items]
        return replace(block, items=tuple(items))

    def _notice(self, notice: Notice) -> Notice:
        return replace(notice, pieces=self._pieces(notice.pieces), said=self._pieces(notice.said))

    def _step(self, step: Step) -> Step:
        facts = tuple([(name, self._measured(said, name)) for name, said in step.facts])
        cautions = tuple([self._notice(told) for told in step.cautions])
        return replace(
            step,
            text=self._pieces(step.text),
            facts=facts,
            cautions=cautions,
            parts=tuple([self._step(part) for part in step.parts]),
        )

    def _item(self, item: Step | GateBar) -> Step | GateBar:
        return self._step(item) if isinstance(item, Step) else item

    def _chapter(self, text: ChapterText) -> ChapterText:
        figures = {key: self._piece(number) for key, number in text.figures.items()}
        shown = {key: made for key, made in figures.items() if isinstance(made, Number)}
        return replace(text, figures=shown)

    def _own(self, block: Block) -> Block:
        """A block by itself; what holds no figures is left as it is."""
        match block:
            case Table():
                return self._table(block)
            case Paragraph():
                return replace(block, pieces=self._pieces(block.pieces))
            case Bullets():
                return replace(block, items=tuple([self._pieces(i) for i in block.items]))
            case Facts():
                return self._facts(block)
            case ChapterText():
                return self._chapter(block)
            case Notice():
                return self._notice(block)
            case Steps():
                return replace(block, items=tuple([self._item(i) for i in block.items]))
        return block

    def block(self, block: Block) -> Block:
        """A block, with all that it holds."""
        match block:
            case Side():
                first, second = self.block(block.first), self.block(block.second)
                return replace(block, first=first, second=second)
            case Fold():
                return replace(block, blocks=tuple([self.block(b) for b in block.blocks]))
            case TwoStacks():
                stacks = [tuple([self.any(b) for b in s]) for s in (block.first, block.second)]
                return replace(block, first=stacks[0], second=stacks[1])
        return self._own(block)

    def any(self, block: Block | Section) -> Block | Section:
        """A block, or a section with all that it holds."""
        if isinstance(block, Section):
            return replace(block, blocks=tuple([self.any(b) for b in block.blocks]))
        return self.block(block)


def in_units(page: Page, chosen: str) -> Page:
    """The page for who chose these (`oz in degF`, any of them); itself for who chose none."""
    choices = frozenset(chosen.split())
    if not choices:
        return page
    reader = _Reader(choices)
    sections = [reader.any(s) for s in page.sections]
    return replace(page, sections=tuple([s for s in sections if isinstance(s, Section)]))
