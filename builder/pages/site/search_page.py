"""The page that searches all builds: the browser does it, from what each build publishes."""

from collections.abc import Sequence

from builder.pages.blocks import Cell, Page, Paragraph, Row, Section, Span, Table
from builder.pages.rows import table_columns
from builder.pages.summaries.summary import Summary

ADDRESS = "search/index.html"


def _row(summary: Summary) -> Row:
    cells = (
        Cell((Span(summary.title, f"{summary.name}/index.html"),)),
        Cell((Span(summary.summary),)),
    )
    return Row(cells, data={"name": summary.name})


def search_page(summaries: Sequence[Summary]) -> Page:
    """A list of all builds; the script puts a field above it and what is found."""
    builds = sorted(summaries, key=lambda s: (s.revised, s.name), reverse=True)
    words = Paragraph(
        (
            Span("Searching needs scripts, which this browser does not run here. Each build's "),
            Span("pages are listed at its head; the parts stand under it."),
        )
    )
    columns = table_columns("Build", "What it is for")
    table = Table("Builds", columns, tuple(map(_row, builds)), "builds", stack=True)
    return Page(
        ADDRESS,
        "search",
        "Search",
        "Find parts, steps, contacts, figures and questions in all builds.",
        (Section("find", "Find", (words, table)),),
    )
