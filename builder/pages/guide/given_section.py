"""The files that a build gives along, each with its size and its digest."""

from builder.model.guide.given_along import GivenAlong
from builder.pages.blocks import Paragraph, Row, Section, Span, Table
from builder.pages.rows import right_column, table_columns, table_row
from builder.pages.sheet_input import SheetInput
from builder.rounding import rounded

_ABOUT = (
    "Look at a file before you use it, and keep what you had. The digest (SHA-256) shows that nothing"
    " was lost on the way, not who made it."
)
_COLUMNS = table_columns("File", "What it is", right_column("Size"), "SHA-256")
_SPACE = "\u00a0"  # which no line break parts
_THOUSAND, _MILLION = 1000, 1_000_000


def size_words(size: int) -> str:
    """A size in bytes, kB or MB of a thousand each (SI)."""
    if size < _THOUSAND:
        return f"{size}{_SPACE}B"
    if size < _MILLION:
        return f"{rounded(size / _THOUSAND, 1)}{_SPACE}kB"
    return f"{rounded(size / _MILLION, 1)}{_SPACE}MB"


def _row(build: str, number: int, one: GivenAlong) -> Row:
    link = Span(one.name, f"{build}/files/{one.name}")
    digest = Span(one.digest, code=True)
    return table_row(link, one.what, size_words(one.size), digest, anchor=f"given-{number}")


def given_files_section(sheet: SheetInput) -> Section:
    """The section; empty for a build that gives none."""
    title = "Files that go with it"
    if not sheet.given:
        return Section("given-files", title, ())
    name = sheet.build.name
    rows = tuple(_row(name, number, one) for number, one in enumerate(sheet.given, 1))
    about = Paragraph((Span(_ABOUT),))
    return Section("given-files", title, (about, Table("", _COLUMNS, rows, stack=True)))
