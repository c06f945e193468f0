"""The change log, newest first, and for a variant what differs from its base."""

from builder.pages.blocks import Block, Markdown, Paragraph, Section, Span, Table
from builder.pages.rows import table_columns, table_row
from builder.pages.sheet_input import SheetInput


def changes(sheet: SheetInput) -> Section:
    """What changed and when."""
    source = sheet.build.source
    blocks: list[Block] = []
    if len(sheet.build.chain) > 1:
        base = sheet.build.chain[1]
        pieces = (
            Span("This is a variant of "),
            Span(base, f"{base}/index.html"),
            Span("; everything that it does not change comes from there. "),
            Span("Compare", f"compare/{base}/{sheet.build.name}/index.html"),
            Span("."),
        )
        blocks.append(Paragraph(pieces))
    logged = sorted(source.changes, key=lambda c: c.date, reverse=True)
    if logged:
        numbered = zip(range(len(logged), 0, -1), logged, strict=True)
        rows = tuple(
            table_row(c.date.isoformat(), Markdown(c.text), anchor=f"change-{i}")
            for i, c in numbered
        )
        blocks.append(Table("What changed", table_columns("Date", "Change"), rows))
    return Section("changes", "Changes", tuple(blocks))
