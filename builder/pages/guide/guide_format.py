"""How chapters are written, for the reference of the file format."""

from builder.pages.blocks import Cell, Paragraph, Section, Span, Table
from builder.pages.rows import table_columns, table_row

_ABOUT = (
    "Chapters are files guide/*.md in a build's folder, in the order of their names; a number before a"
    " name (01-wiring.md) only puts them in order. They are Markdown (CommonMark, with tables) without"
    " HTML. A variant without chapters shows those of its base. In build.yaml Markdown works in the"
    " keys below that say so, and nowhere else."
)
_LINES = (
    ("# Title", "The title of the chapter, on its first line; headings below it begin with ##."),
    (
        "{figure:mass/dry}",
        "A number of the build, rounded as everywhere, with the way to how it was"
        " made. `benchleaf trace BUILD` lists the keys.",
    ),
    ("[words](step:dry-fit)", "A step of the work by its name, with hyphens for blanks."),
    ("[words](part:motor)", "A part or battery by its name in the build."),
    ("[words](02-wiring.md#at-motors)", "Another chapter; behind # a heading of it."),
    ("[words](files:settings.txt)", "A file that the build gives along."),
    ("[words](https://shop.example/part)", "An address of the web, written out; mailto: too."),
    (
        '![what it shows](wedge.svg "A caption")',
        "A picture beside the chapter, on a line of its own;"
        " ../wedge.svg is one of the build's folder.",
    ),
)


def guide_format() -> Section:
    """A line for each thing that a chapter may hold besides plain Markdown."""
    rows = tuple(table_row(Cell((Span(written, code=True),)), says) for written, says in _LINES)
    table = Table("In a chapter", table_columns("Written", "What it is"), rows, stack=True)
    return Section("chapters-format", "Chapters", (Paragraph((Span(_ABOUT),)), table))
