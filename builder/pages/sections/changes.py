"""The change log, newest first, and for a variant what differs from its base."""

from collections.abc import Mapping, Sequence

from builder.model.source.build_log import Change
from builder.pages.blocks import Block, Cell, Inline, Markdown, Paragraph, Section, Span, Table
from builder.pages.changed_numbers import changed_numbers
from builder.pages.rows import table_columns, table_row
from builder.pages.sheet_input import SheetInput


def _said(change: Change, numbers: Sequence[Inline], titles: Mapping[str, Span]) -> Cell:
    """What changed, in words, in numbers, and the chapters that tell of it."""
    pieces: list[Inline] = [Markdown(change.text)]
    pieces += [Span(" "), *numbers, Span(".")] if numbers else []
    chapters = [titles[name] for name in change.chapters if name in titles]
    for number, chapter in enumerate(chapters):
        pieces += [Span(", " if number else " Guide: "), chapter]
    return Cell(tuple(pieces))


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
    together = zip(source.changes, changed_numbers(sheet), strict=True)
    logged = sorted(together, key=lambda c: c[0].date, reverse=True)
    if logged:
        numbered = zip(range(len(logged), 0, -1), logged, strict=True)
        titles = {c.name: Span(c.title, c.page) for c in sheet.guide}
        rows = tuple(
            table_row(c.date.isoformat(), _said(c, numbers, titles), anchor=f"change-{i}")
            for i, (c, numbers) in numbered
        )
        blocks.append(Table("What changed", table_columns("Date", "Change"), rows))
    return Section("changes", "Changes", tuple(blocks))
