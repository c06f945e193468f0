"""Any two builds beside each other: the page is made in the browser from what both sheets publish."""

from collections.abc import Sequence

from builder.pages.blocks import Cell, Page, Paragraph, Row, Section, Span, Table
from builder.pages.retired import retired_in_words
from builder.pages.rows import table_columns
from builder.pages.summaries.summary import Summary


def _build_row(s: Summary) -> Row:
    words = retired_in_words(s.status, s.superseded_by)
    cells = Cell((Span(s.title, f"{s.name}/index.html"),)), Cell((Span(words or s.status),))
    data = {"name": s.name, "title": s.title}
    return Row(cells, data={**data, "retired": words} if words else data)


def compare_any_page(summaries: Sequence[Summary]) -> Page:
    """A list of all builds; the script turns it into two choices and lays the pair below."""
    builds = sorted(summaries, key=lambda s: (s.title.casefold(), s.name))
    rows = tuple(map(_build_row, builds))
    words = Paragraph(
        (
            Span("Choosing needs scripts, which this browser does not run here. "),
            Span("Pairs that need none", "compare/index.html"),
            Span(" are listed beside the table of all builds."),
        )
    )
    table = Table("Builds", table_columns("Build", "Status"), rows, "builds")
    return Page(
        "compare/any/index.html",
        "any",
        "Any two builds",
        "Pick two builds and compare weight, money, parts and flight. A part that both have"
        " cancels out.",
        (Section("pick", "Pick two", (words, table)),),
        breadcrumbs=(Span("Compare", "compare/index.html"),),
    )
