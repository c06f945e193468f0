"""The guide on the short sheet: its chapters, each a way on."""

from builder.pages.blocks import Bullets, Section, Span
from builder.pages.guide.reading_time import time_words
from builder.pages.guide.whose_words import writer_of
from builder.pages.page_map import GUIDE, page_address
from builder.pages.sheet_input import SheetInput


def guide_brief(sheet: SheetInput) -> tuple[Section, ...]:
    """The section, where there are chapters."""
    if not sheet.guide:
        return ()
    address = page_address(sheet.build.name, GUIDE)
    time = time_words(sheet.guide)
    if sheet.guide[0].is_inherited:
        time += f", written for {writer_of(sheet).title}"
    items = tuple((Span(chapter.title, chapter.page),) for chapter in sheet.guide)
    whole = (Span("Guide", address, strong=True), Span(f" {time}"))
    blocks = (Bullets((whole, *items)),)
    return (Section("brief-guide", "Guide", blocks, role="topic"),)
