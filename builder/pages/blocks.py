"""What a page is made of, without HTML. Frozen; render turns each block into HTML, and prints the
same on paper.
"""

from collections.abc import Mapping
from dataclasses import field
from typing import Literal

from builder.diagnostics.finding import Signal
from builder.frozen import value_class
from builder.pages.drawing import Drawing

Align = Literal["left", "right", "centre"]


@value_class(frozen=True, slots=True)
class Number:
    """A computed number as text, with the anchor of its derivation on the numbers page ('' for
    none).

    `value` and `unit` stand apart so that columns align; `spread` is text such as `± 0.3`.
    """

    value: str
    unit: str = ""
    spread: str = ""
    anchor: str = ""
    basis: str = ""
    prefix: str = ""
    build: str = ""


@value_class(frozen=True, slots=True)
class Span:
    """Plain text. `link` leads to another address (relative to the site's root) or an anchor of
    this page.
    """

    text: str
    link: str = ""
    strong: bool = False
    code: bool = False
    rel: str = ""


@value_class(frozen=True, slots=True)
class Markdown:
    """Text that a person wrote, in Markdown (raw HTML off, links restricted)."""

    text: str
    inline: bool = True


@value_class(frozen=True, slots=True)
class Tick:
    """A box to tick; `key` is stable within the build, so that a tick survives a reload."""

    key: str
    label: str = ""


@value_class(frozen=True, slots=True)
class WriteIn:
    """A box to write a reading into, with what is expected (`4.85 to 5.15 V`). Paper has a line for
    each of `count` readings.
    """

    key: str
    label: str
    unit: str = ""
    expect: str = ""
    count: int = 1


@value_class(frozen=True, slots=True)
class Swatch:
    """A wire colour: its English name and IEC 60757 letters; drawn as a patch beside the words,
    never alone.
    """

    name: str
    letters: str


@value_class(frozen=True, slots=True)
class Thumbnail:
    """A small picture in a cell: that of an address, else a drawing. `text` is what it shows, in
    words.
    """

    address: str = ""
    text: str = ""
    drawing: Drawing | None = None


Inline = Number | Span | Markdown | Tick | WriteIn | Swatch | Thumbnail


@value_class(frozen=True, slots=True)
class Cell:
    """A cell of a table: pieces in a row. `note` stands below them, smaller. `anchor` makes the
    cell citable where its row has another name.
    """

    pieces: tuple[Inline, ...] = ()
    note: str = ""
    tone: Literal["", "good", "bad", "quiet"] = ""
    sort: float | str | None = None
    anchor: str = ""


@value_class(frozen=True, slots=True)
class Column:
    """A column: its heading, its unit and how its cells align. Cells of a `plain` one say what they
    are, so that a card does not repeat its heading; `label` is what a card says for a long one.
    """

    heading: str
    unit: str = ""
    align: Align = "left"
    narrow: bool = False
    plain: bool = False
    label: str = ""


@value_class(frozen=True, slots=True)
class Row:
    """A row. `kind` sets group headings and totals apart; `anchor` makes it citable; `data` serves
    scripts.
    """

    cells: tuple[Cell, ...]
    kind: Literal["", "group", "subtotal", "total"] = ""
    anchor: str = ""
    data: Mapping[str, str] = field(default_factory=dict)


@value_class(frozen=True, slots=True)
class Table:
    """A table. The first column heads its rows. On a narrow screen `stack` turns each row into a
    small list.
    """

    caption: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    anchor: str = ""
    stack: bool = False
    note: str = ""
    sortable: bool = False


@value_class(frozen=True, slots=True)
class Paragraph:
    """Pieces of running text."""

    pieces: tuple[Inline, ...]
    quiet: bool = False
    lead: bool = False


@value_class(frozen=True, slots=True)
class Prose:
    """A longer text that a person wrote, in Markdown."""

    text: str


@value_class(frozen=True, slots=True)
class ChapterText:
    """A piece of a chapter in Markdown, with what its names stand for: each figure by its key as it
    was written, each link and picture by its destination as it was written. What is in none of them
    leads nowhere and is not shown.
    """

    text: str
    figures: Mapping[str, Number] = field(default_factory=dict)
    links: Mapping[str, str] = field(default_factory=dict)
    pictures: Mapping[str, "Picture"] = field(default_factory=dict)
    definitions: tuple[tuple[str, str, str], ...] = ()


@value_class(frozen=True, slots=True)
class Bullets:
    """A list; `ordered` numbers it."""

    items: tuple[tuple[Inline, ...], ...]
    ordered: bool = False


@value_class(frozen=True, slots=True)
class Facts:
    """Name and value pairs, such as the figures at a glance. `large` sets them big."""

    items: tuple[tuple[str, Cell], ...]
    large: bool = False


@value_class(frozen=True, slots=True)
class Notice:
    """A caution with its signal word, or a finding ('' for none). `anchor` makes it citable.

    `said` is the title in pieces, where it has numbers in it.
    """

    signal: Signal | None
    title: str
    pieces: tuple[Inline, ...]
    anchor: str = ""
    code: str = ""
    tone: Literal["", "fault", "remark", "accepted"] = ""
    said: tuple[Inline, ...] = ()


@value_class(frozen=True, slots=True)
class Step:
    """A step of the order of work: tick box, what, where, with what, why; write-in boxes where one
    measures.

    `cautions` are read before it, the gravest first. `built` says what was done otherwise, or read,
    when it was built. A step with `parts` has its
    boxes at them: each is done and ticked by itself, and has no number of its own. `drawing` is for
    screens alone: it may show again what another step's drawing holds; so are `photos`, which were
    taken at the step.
    """

    number: str
    key: str
    text: tuple[Inline, ...]
    facts: tuple[tuple[str, tuple[Inline, ...]], ...] = ()
    reason: str = ""
    write_ins: tuple[WriteIn, ...] = ()
    anchor: str = ""
    picture: "Picture | None" = None
    cautions: tuple[Notice, ...] = ()
    built: tuple[str, ...] = ()
    parts: tuple["Step", ...] = ()
    drawing: Drawing | None = None
    photos: tuple["Picture", ...] = ()


@value_class(frozen=True, slots=True)
class GateBar:
    """A heavy bar across the order of work: nothing goes on below it before its gate has passed.

    `name` is what the gate is about.
    """

    title: str
    text: str
    anchor: str = ""
    name: str = ""


@value_class(frozen=True, slots=True)
class Steps:
    """The order of work: steps and gates in a row."""

    items: tuple[Step | GateBar, ...]


@value_class(frozen=True, slots=True)
class PictureMark:
    """Words that a thin line leads from to a point of a picture: shares from its left upper corner."""

    x: float
    y: float
    text: str


@value_class(frozen=True, slots=True)
class Picture:
    """A picture of the build: an address under the build's folder, its alternative text and
    caption. `marks` are told beside it.
    """

    address: str
    alt: str
    caption: str = ""
    width: int = 0
    height: int = 0
    marks: tuple[PictureMark, ...] = ()


@value_class(frozen=True, slots=True)
class Illustration:
    """A drawing with its caption; `true_size` prints its millimetres as millimetres; `plot` is kept
    to a column.
    """

    drawing: Drawing
    caption: str
    anchor: str = ""
    wide: bool = False
    true_size: bool = False
    plot: bool = False


@value_class(frozen=True, slots=True)
class Side:
    """Two blocks beside each other where there is room: a board's drawing and its contacts."""

    first: "Block"
    second: "Block"


@value_class(frozen=True, slots=True)
class TwoStacks:
    """Two stacks of blocks of equal width beside each other where there is room."""

    first: tuple["Block | Section", ...]
    second: tuple["Block | Section", ...]


@value_class(frozen=True, slots=True)
class Fold:
    """A block that stays closed until it is asked for (open on paper where `paper` says so).

    `alike` says that it holds only what two builds have alike, which no list of differences needs.
    """

    title: str
    blocks: tuple["Block", ...]
    paper: bool = True
    alike: bool = False


@value_class(frozen=True, slots=True)
class Forward:
    """An anchor that was on this page, and where it is now; `starts` begin the anchors that went
    with it.
    """

    anchor: str
    text: str
    link: str
    starts: tuple[str, ...] = ()


@value_class(frozen=True, slots=True)
class Forwards:
    """What was on this page: links for who reads, ids for who comes by an old address."""

    items: tuple[Forward, ...]


Block = (
    Table
    | Paragraph
    | Prose
    | ChapterText
    | Bullets
    | Facts
    | Notice
    | Steps
    | Picture
    | Illustration
    | Side
    | TwoStacks
    | Fold
    | Forwards
)

SectionRole = Literal[
    "",
    "figures",
    "cautions",
    "ways",
    "topic",
    "moved",
    "buy",
    "board",
    "board tailed",
    "gate",
    "gate whole",
    "whole",
    "card",
    "quarter",
    "chapter",
]
PRINTED_ROLES = (
    "board",
    "board tailed",
    "gate",
    "gate whole",
    "whole",
    "card",
    "quarter",
)  # which the style of paper knows too


@value_class(frozen=True, slots=True)
class Section:
    """A section with its heading; `level` 2 for the sheet's own, 3 for parts of one. Sections nest.

    `role` says what it is for on the short sheet: a class by which the style sheet knows it.
    """

    anchor: str
    heading: str
    blocks: tuple["Block | Section", ...]
    level: int = 2
    break_before: bool = False
    role: SectionRole = ""


@value_class(frozen=True, slots=True)
class Page:
    """A page: its address under the site's root, its title, what stands above the sections, and the
    sections.

    `kind` chooses the template; `digest` tells one state of a build's sources from another;
    `data` is handed to the page's script and to feeds (plain values only). `pages` are all pages
    of the same build, this one without a link. `author` is named where the writer's own words are,
    `banner` is said at the head of it.
    """

    address: str
    kind: Literal[
        "sheet",
        "topic",
        "buy",
        "guide",
        "chapter",
        "numbers",
        "bench",
        "paper",
        "compare",
        "table",
        "part",
        "rules",
        "fields",
        "front",
        "missing",
        "any",
        "search",
        "units",
    ]
    title: str
    summary: str
    sections: tuple[Section, ...]
    build: str = ""
    revised: str = ""
    status: str = ""
    draft: bool = False
    kept: bool = False
    digest: str = ""
    breadcrumbs: tuple[Span, ...] = ()
    links: tuple[Span, ...] = ()
    data: Mapping[str, object] = field(default_factory=dict)
    pages: tuple[Span, ...] = ()
    author: str = ""
    banner: tuple[Span, ...] = ()
