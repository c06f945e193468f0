"""One chapter as a page: its text under its headings, and the ways to the chapters beside it."""

from collections.abc import Sequence

from builder.model.guide.chapter import GuideChapter, guide_address
from builder.pages.blocks import Inline, Page, Paragraph, Section, Span
from builder.pages.guide.chapter_body import Figures, chapter_body
from builder.pages.guide.reading_time import time_words
from builder.pages.guide.whose_words import whose_words, writer_of
from builder.pages.page_map import GUIDE, SHEET, page_address
from builder.pages.page_of_build import pages_of_build
from builder.pages.retired import retired_banner
from builder.pages.sheet_input import SheetInput
from builder.rules.data._guide_names import GuideNames


def _ways(chapters: Sequence[GuideChapter], at: int) -> Section:
    """The chapter before, all of them, the chapter behind."""
    pieces: list[Inline] = []
    if at:
        before = chapters[at - 1]
        pieces += [Span("Before: "), Span(before.title, before.page, rel="prev"), Span(" · ")]
    pieces.append(Span("All chapters", guide_address(chapters[at].build)))
    if at + 1 < len(chapters):
        after = chapters[at + 1]
        pieces += [Span(" · "), Span("Next: "), Span(after.title, after.page, rel="next")]
    return Section("next-chapter", "", (Paragraph(tuple(pieces)),), role="chapter")


def chapter_page(sheet: SheetInput, at: int, names: GuideNames, figures: Figures) -> Page:
    """The page of the chapter at a place of the guide."""
    build, chapter = sheet.build, sheet.guide[at]
    opening, sections = chapter_body(chapter, names, figures)
    first = [Section("chapter", "", opening, role="chapter")] if opening else []
    count = len(sheet.guide)
    place = f"Chapter {at + 1} of {count}" if count > 1 else "The one chapter"
    summary = f"{place}. {time_words([chapter])}."
    revised = build.source.revised
    return Page(
        chapter.page,
        "chapter",
        chapter.title,
        summary,
        (*whose_words(sheet, [chapter], names), *first, *sections, _ways(sheet.guide, at)),
        build=build.name,
        revised=revised.isoformat() if revised else "",
        status=build.source.status,
        draft=sheet.draft,
        digest=build.digest,
        breadcrumbs=(
            Span("All builds", "index.html"),
            Span(build.title, page_address(build.name, SHEET)),
            Span("Guide", page_address(build.name, GUIDE)),
        ),
        pages=pages_of_build(sheet, None),
        author=writer_of(sheet).source.author or "",
        banner=retired_banner(build),
    )
