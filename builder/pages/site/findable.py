"""What can be found in a build's pages: titles, parts, steps, figures, questions, contacts, each
with its address. The page that searches reads it; nothing is asked of anybody else.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Literal

from builder.frozen import value_class
from builder.pages.blocks import (
    Block,
    Facts,
    Fold,
    Notice,
    Page,
    Row,
    Section,
    Side,
    Span,
    Step,
    Steps,
    Table,
    TwoStacks,
)
from builder.pages.page_map import BuildPage, address_of
from builder.pages.page_text import words

Kind = Literal[
    "page",
    "topic",
    "part",
    "figure",
    "step",
    "contact",
    "caution",
    "question",
    "change",
    "chapter",
]
KINDS: tuple[Kind, ...] = (
    *("page", "topic", "part", "figure", "step"),
    *("contact", "caution", "question", "change", "chapter"),
)
_CALLED = "Called"  # the heading of the column that says what a build calls its parts
_LONGEST = 43  # letters of a line that is found
_ONLY_WAYS = ("moved", "ways", "topic", "cautions")  # sections that lead to what is found elsewhere
_TITLE_ONLY = ("paper", "numbers", "bench")  # kinds of pages whose lines stand on the others,
_BUT = ("trouble",)  # but for these sections, by their anchors
_FIGURE_ROWS = ("flight-figures",)  # tables whose rows are named for figures, by anchor
_IN_A_GATE = re.compile(r"gate-[a-z]-\d+")  # parts of a gate are alike in all of them
# What the anchors of a kind begin with.
BEGINS: Mapping[Kind, str] = {
    "step": "step-",
    "contact": "pin-",
    "caution": "caution-",
    "question": "ask-",
    "change": "change-",
}


@value_class(frozen=True, slots=True)
class Findable:
    """A line that can be found. `address` is from the site's root."""

    kind: Kind
    text: str
    address: str


def _short(text: str) -> str:
    plain = " ".join(text.split())
    return plain if len(plain) <= _LONGEST else plain[:_LONGEST].rsplit(" ", 1)[0] + " …"


def _kind(anchor: str, otherwise: Kind) -> Kind:
    begun = (kind for kind, start in BEGINS.items() if anchor.startswith(start))
    return next(begun, otherwise)


def _row_text(row: Row) -> str:
    """A contact by its part and its print; a change by its date and its words."""
    if row.anchor.startswith("pin-"):
        return row.anchor.removeprefix("pin-").replace("-", " ")
    return ": ".join([words(cell.pieces) for cell in row.cells[:2]])


def _called(table: Table, row: Row, name: str) -> str:
    """What the build calls a part, behind its name, where that does not say it: `: propeller`."""
    if len(row.cells) < len(table.columns) or table.columns[1].heading != _CALLED:
        return ""
    called = words(row.cells[1].pieces)
    return f": {called}" if called and called not in name.lower() else ""


def _part_of(table: Table, row: Row) -> Findable | None:
    """A part by the link to its page."""
    for piece in row.cells[0].pieces if row.cells else ():
        if isinstance(piece, Span) and piece.link.startswith("parts/"):
            text = f"{_short(piece.text)}{_called(table, row, piece.text)}"
            return Findable("part", text, piece.link)
    return None


def _rows(table: Table, page: str) -> Iterator[Findable]:
    for row in table.rows:
        part = _part_of(table, row)
        if part is not None:
            yield part
        elif row.anchor.startswith(("pin-", "change-")):
            kind = _kind(row.anchor, "topic")
            yield Findable(kind, _short(_row_text(row)), f"{page}#{row.anchor}")


def _figure_rows(table: Table, page: str) -> Iterator[Findable]:
    """Rows of a table of figures, each found by its name, at the table."""
    if table.anchor not in _FIGURE_ROWS:
        return
    for row in table.rows:
        if len(row.cells) > 1:
            name = _short(words(row.cells[0].pieces))
            yield Findable("figure", name, f"{page}#{row.anchor or table.anchor}")


def _step(item: Step, page: str) -> Findable:
    return Findable("step", _short(words(item.text)), f"{page}#{item.anchor}")


def _inner(block: Block) -> Sequence[Block | Section]:
    """The blocks of a block."""
    match block:
        case Side():
            return block.first, block.second
        case TwoStacks():
            return *block.first, *block.second
        case Fold():
            return block.blocks
    return ()


def _block(block: Block, page: str, at: str) -> Iterator[Findable]:
    in_gate = at.startswith("gate-")
    match block:
        case Table():
            if block.caption and not in_gate:
                yield Findable("topic", _short(block.caption), f"{page}#{block.anchor or at}")
            yield from _rows(block, page)
            yield from _figure_rows(block, page)
        case Steps():
            yield from (_step(item, page) for item in block.items if isinstance(item, Step))
        case Notice() if block.signal is not None and block.anchor:
            yield Findable("caution", _short(block.title), f"{page}#{block.anchor}")
        case Facts() if not in_gate:
            yield from (Findable("figure", _short(name), f"{page}#{at}") for name, _ in block.items)
        case _:
            yield from _all(_inner(block), page, at)


def _section(section: Section, page: str) -> Iterator[Findable]:
    if section.role in _ONLY_WAYS:
        return
    if not _IN_A_GATE.fullmatch(section.anchor):
        kind = _kind(section.anchor, "topic")
        yield Findable(kind, _short(section.heading), f"{page}#{section.anchor}")
    yield from _all(section.blocks, page, section.anchor)


def _all(blocks: Iterable[Block | Section], page: str, at: str) -> Iterator[Findable]:
    for block in blocks:
        if isinstance(block, Section):
            yield from _section(block, page)
        else:
            yield from _block(block, page, at)


def chapter_lines(
    title: str, address: str, headings: Iterable[tuple[str, str]] = ()
) -> tuple[Findable, ...]:
    """A chapter of a guide, by its title, and by its headings, each an anchor and words."""
    own = Findable("chapter", _short(title), address)
    within = [Findable("chapter", _short(said), f"{address}#{at}") for at, said in headings]
    return own, *within


def lines_of_page(page: BuildPage, build: str) -> Iterator[Findable]:
    """The sections of a page that is made apart from the others, as the map of pages names them."""
    for placed in page.holds:
        yield Findable("topic", placed.words, address_of(build, placed.anchor))


def found_in(pages: Iterable[Page], chapters: Iterable[Findable] = ()) -> tuple[Findable, ...]:
    """What can be found, `chapters` (of `chapter_lines`) among it; a line that stands on several
    pages is found on the first.
    """
    lines: list[Findable] = []
    for page in pages:
        lines.append(Findable("page", page.title, page.address))
        if page.kind not in _TITLE_ONLY:
            lines += _all(page.sections, page.address, "")
        else:
            own = [section for section in page.sections if section.anchor in _BUT]
            lines += [Findable("topic", s.heading, f"{page.address}#{s.anchor}") for s in own]
    lines += chapters
    first = {_same(line): line for line in reversed(lines)}
    return tuple(line for line in lines if first[_same(line)] is line)


def _same(line: Findable) -> tuple[str, str]:
    """What a line that stands on several pages has alike: of a part its own page."""
    return line.kind, line.address if line.kind == "part" else line.text
