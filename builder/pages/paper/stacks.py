"""Blocks in two columns without a printer that balances them: it would lay out each page several
times. How high a block is, is estimated; what is wide stays across the page.
"""

from collections.abc import Iterable, Iterator, Sequence
from math import fsum

from builder.pages.blocks import (
    Block,
    Bullets,
    Cell,
    Facts,
    Illustration,
    Inline,
    Notice,
    Number,
    Paragraph,
    Row,
    Section,
    Side,
    Span,
    Table,
    TwoStacks,
    WriteIn,
)

_LETTERS = 50  # that a line of half a page holds in 11 pt
_ACROSS = 105  # letters of a line across the page
_MOST = 26  # lines of half a page, so that a pair fits on one
_WIDE = 4  # columns from which a table takes the whole width
_MM_A_LINE = 4.1
_HEADING = 2
Stacked = Block | Section


def _length(pieces: Iterable[Inline]) -> int:
    total = 0
    for piece in pieces:
        if isinstance(piece, Span):
            total += len(piece.text)
        elif isinstance(piece, Number):
            total += len(piece.value) + len(piece.unit) + 1
        elif isinstance(piece, WriteIn):
            total += len(piece.label) + len(piece.expect) + 16
        else:
            total += 4
    return total


def _cell_lines(cell: Cell, letters: int) -> int:
    return -(-_length(cell.pieces) // letters) + -(-len(cell.note) // letters)


def _table_lines(table: Table) -> float:
    letters = _LETTERS // max(len(table.columns), 1) + 3
    rows = (max((_cell_lines(c, letters) for c in row.cells), default=1) for row in table.rows)
    return 2.5 + fsum(1.1 * max(lines, 1) for lines in rows) + len(table.note) / _LETTERS


def lines_of(block: Stacked) -> float:
    """About how many lines a block takes in half a page."""
    if isinstance(block, Section):
        return _HEADING + fsum(map(lines_of, block.blocks))
    if isinstance(block, Table):
        return _table_lines(block)
    if isinstance(block, Bullets):
        return fsum(0.3 + -(-_length(item) // (_LETTERS - 6)) for item in block.items)
    if isinstance(block, Paragraph):
        return 0.5 + -(-_length(block.pieces) // _LETTERS)
    if isinstance(block, Notice):
        letters = len(block.title) + _length(block.pieces) + 12
        return 1.5 + -(-letters // (_LETTERS - 6))
    if isinstance(block, Facts):
        return sum(1 + _cell_lines(c, _LETTERS // 2) for _, c in block.items)
    if isinstance(block, Side):
        return lines_of(block.first) + lines_of(block.second)
    return _drawing_lines(block) if isinstance(block, Illustration) else 4.0


def _drawing_lines(shown: Illustration) -> float:
    """The lines of a drawing as it is printed in half a page: 78 mm wide and 86 mm high at most."""
    drawn = shown.drawing
    height = min(86.0, drawn.height * 78.0 / max(drawn.width, 1.0))
    return height / _MM_A_LINE + (1.5 if shown.caption else 0.5)


def _row_across(row: Row, letters: tuple[int, ...]) -> float:
    """The lines of a row whose columns hold so many letters."""
    if row.kind == "group":
        return float(-(-_length(row.cells[0].pieces) // _ACROSS))
    cells = zip(row.cells, letters, strict=False)
    return max(1.15, *(-(-_length(c.pieces) // room) for c, room in cells))


def lines_across(block: Stacked) -> float:
    """About how many lines a block takes across the page."""
    if isinstance(block, Section):
        return 1.3 + fsum(map(lines_across, block.blocks))
    if isinstance(block, Table):
        rows = fsum(_row_across(row, (36, 52, 20, 9)) for row in block.rows)
        return 2.2 + rows + -(-len(block.note) // _ACROSS)
    if isinstance(block, TwoStacks):
        return max(fsum(map(lines_of, stack)) for stack in (block.first, block.second))
    if isinstance(block, Facts):
        return 2.0
    if isinstance(block, Bullets):
        return fsum(0.2 + -(-_length(item) // _ACROSS) for item in block.items)
    return lines_of(block) / 2 + 0.5


def _is_wide(block: Stacked) -> bool:
    if isinstance(block, Section):
        return any(map(_is_wide, block.blocks))
    return isinstance(block, Table) and len(block.columns) > _WIDE


def in_halves(run: Sequence[Stacked]) -> TwoStacks:
    """A run cut where its two sides are as equal as they get, in reading order."""
    heights = [lines_of(b) for b in run]
    whole = fsum(heights)
    unequal = [abs(whole - 2 * fsum(heights[:cut])) for cut in range(1, len(run) + 1)]
    cut = unequal.index(min(unequal)) + 1
    return TwoStacks(tuple(run[:cut]), tuple(run[cut:]))


def in_two_stacks(blocks: Iterable[Stacked]) -> Iterator[Block | Section]:
    """The blocks in reading order, as many beside each other as a page holds."""
    run: list[Stacked] = []
    for block in blocks:
        full = fsum(map(lines_of, run)) + lines_of(block) > 2 * _MOST
        if run and (full or _is_wide(block)):
            yield in_halves(run) if len(run) > 1 else run[0]
            run = []
        if _is_wide(block):
            yield block
        else:
            run.append(block)
    if run:
        yield in_halves(run) if len(run) > 1 else run[0]
