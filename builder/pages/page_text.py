"""A page as plain text for the terminal: the same headings, tables and lists, without links and
drawings.
"""

from collections.abc import Iterable, Sequence
from textwrap import wrap

from builder.pages.blocks import (
    Block,
    Bullets,
    Cell,
    Column,
    Facts,
    Fold,
    Illustration,
    Inline,
    Markdown,
    Number,
    Page,
    Paragraph,
    Section,
    Span,
    Swatch,
    Table,
)

WIDEST = 44  # characters of a cell; longer ones go on below
_LINE = 110


def words(pieces: Iterable[Inline]) -> str:
    """Pieces of running text."""
    out = []
    for piece in pieces:
        if isinstance(piece, Number):
            out.append(
                " ".join(w for w in (piece.prefix, piece.value, piece.unit, piece.spread) if w)
            )
        elif isinstance(piece, Swatch):
            out.append(piece.name)
        elif isinstance(piece, Span | Markdown):
            out.append(piece.text)
    return "".join(out)


def _cell(cell: Cell) -> list[str]:
    text = words(cell.pieces)
    notes = [f"({cell.note})"] if cell.note else []
    return [line for part in (text, *notes) for line in wrap(part, WIDEST)] or [""]


def _heads(columns: Sequence[Column]) -> list[list[str]]:
    return [[", ".join(w for w in (c.heading, c.unit) if w)] for c in columns]


def _table(table: Table) -> list[str]:
    """Columns as wide as they need, numbers to the right; one blank line above it."""
    rows = [_heads(table.columns), *([_cell(c) for c in row.cells] for row in table.rows)]
    widths = [
        max(len(line) for row in rows if i < len(row) for line in row[i])
        for i in range(len(table.columns))
    ]
    out = [table.caption] if table.caption else []
    for row in rows:
        for n in range(max(map(len, row))):
            cells = []
            for column, width, lines in zip(table.columns, widths, row, strict=False):
                text = lines[n] if n < len(lines) else ""
                cells.append(text.rjust(width) if column.align == "right" else text.ljust(width))
            out.append(("  " + "  ".join(cells)).rstrip())
    if table.note:
        out += wrap(table.note, _LINE)
    return out


def _bullets(block: Bullets) -> list[str]:
    lines = (
        wrap(words(i), _LINE, initial_indent="  - ", subsequent_indent="    ") for i in block.items
    )
    return [line for item in lines for line in item]


def _fold(block: Fold, alike: bool) -> list[str]:
    if block.alike and not alike:
        return [f"{block.title}: --all shows them."]
    return [block.title + ":", *(line for b in block.blocks for line in _block(b, alike))]


def _block(block: Block, alike: bool) -> list[str]:
    match block:
        case Table():
            return _table(block)
        case Paragraph():
            return wrap(words(block.pieces), _LINE)
        case Bullets():
            return _bullets(block)
        case Facts():
            return [f"  {name}: {' '.join(_cell(cell))}" for name, cell in block.items]
        case Illustration():
            return wrap(block.drawing.alt, _LINE)
        case Fold():
            return _fold(block, alike)
        case _:
            return []  # what no comparison holds


def _section(section: Section, alike: bool) -> list[str]:
    out = ["", section.heading.upper() if section.level == 2 else section.heading]
    for block in section.blocks:
        out += _section(block, alike) if isinstance(block, Section) else _block(block, alike)
    return out


def page_text(page: Page, *, alike: bool = False) -> str:
    """The page; `alike` shows too what it holds of what two builds have alike."""
    out = [page.title, *wrap(page.summary, _LINE)]
    for section in page.sections:
        out += _section(section, alike)
    return "\n".join(out)
