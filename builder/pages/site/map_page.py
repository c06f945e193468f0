"""The map of a build's pages, for the reference: what is where, under which address, for whom."""

from builder.pages.blocks import Cell, Inline, Paragraph, Section, Span, Table
from builder.pages.page_map import ALL_PAGES, CHOOSE, GUIDE, SHEET, BuildPage
from builder.pages.rows import table_columns, table_row

_ABOUT = (
    "The sheet is short; each topic has a page. An anchor keeps its name for ever: an address with"
    " one that moved leads to where it is now."
)


def _anchors(page: BuildPage) -> Cell:
    """The anchors of a page; those that are many by how they begin."""
    pieces: list[Inline] = []
    for placed in page.holds:
        pieces += [Span("; ")] if pieces else []
        pieces += [Span(f"{placed.words}: "), Span(f"#{placed.anchor}", code=True)]
        pieces += [Span(f" #{name}", code=True) for name in placed.within]
        pieces += [Span(f" #{start}…", code=True) for start in placed.starts]
    return Cell(tuple(pieces))


def map_section() -> Section:
    """A row a page."""
    rows = tuple(
        table_row(
            Cell((Span(p.title, strong=p is SHEET),)),
            Cell((Span(f"BUILD/{p.name}/" if p.name else "BUILD/", code=True),)),
            p.reader,
            _anchors(p),
            anchor=f"page-{p.name or 'sheet'}",
        )
        for p in (*ALL_PAGES, CHOOSE, GUIDE)
    )
    columns = table_columns("Page", "Address", "For whom", "What is there")
    table = Table("Pages of a build", columns, rows, "pages-table", stack=True)
    return Section("pages", "Pages of a build", (Paragraph((Span(_ABOUT),)), table))
