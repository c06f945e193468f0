"""One chapter as a page: its text under its headings, and the ways to the chapters beside it."""

from collections.abc import Mapping, Sequence

from builder.compute.figures.figure import MaybeFigure
from builder.model.guide.chapter import GuideChapter, Heading, guide_address
from builder.pages.blocks import (
    Block,
    ChapterText,
    Inline,
    Number,
    Page,
    Paragraph,
    Picture,
    Section,
    Span,
)
from builder.pages.chapter_figure import chapter_figure
from builder.pages.guide.reading_time import time_words
from builder.pages.page_map import GUIDE, SHEET, page_address
from builder.pages.page_of_build import pages_of_build
from builder.pages.retired import retired_banner
from builder.pages.sheet_input import SheetInput
from builder.rules.data._guide_names import GuideNames


def _numbers(
    chapter: GuideChapter, names: GuideNames, figures: Mapping[str, MaybeFigure]
) -> dict[str, Number]:
    """Each figure of a chapter by its key as it was written."""
    found: dict[str, Number] = {}
    for reference in chapter.references:
        key = names.meant(reference)
        if reference.kind == "figure" and key is not None:
            found[reference.name] = chapter_figure(figures[key])
    return found


def _links(chapter: GuideChapter, names: GuideNames) -> dict[str, str]:
    """Where each link to something of the site leads, by its destination as it was written."""
    found: dict[str, str] = {}
    for reference in chapter.references:
        meant = names.meant(reference)
        if reference.kind == "figure" or meant is None:
            continue
        address = f"{meant}#{reference.rest}" if reference.rest else meant
        found[reference.written] = address
    return found


def _pictures(chapter: GuideChapter) -> dict[str, Picture]:
    return {
        p.source: Picture(f"{chapter.build}/{p.file}", p.alt, p.caption) for p in chapter.pictures
    }


class _Pieces:
    """The text of a chapter, cut at its headings. Local to a call."""

    def __init__(self, chapter: GuideChapter, whole: ChapterText) -> None:
        self._lines = chapter.markdown.split("\n")
        self._whole = whole
        self._headings = chapter.headings

    def text(self, first: int, after: int) -> list[Block | Section]:
        """What stands between two lines; nothing for blank ones."""
        lines = "\n".join(self._lines[first:after])
        if not lines.strip():
            return []
        w = self._whole
        return [ChapterText(lines, w.figures, w.links, w.pictures, w.definitions)]

    def first(self, title_after: int) -> list[Block | Section]:
        """What stands above the first heading."""
        end = self._headings[0].first if self._headings else len(self._lines)
        return self.text(title_after, end)

    def sections(self, at: int = 0, level: int = 2) -> tuple[list[Section], int]:
        """The sections of a level from a heading on, and which heading comes after them."""
        made: list[Section] = []
        while at < len(self._headings) and self._headings[at].level >= level:
            heading = self._headings[at]
            body = self.text(heading.after, self._end(at))
            inner, at = self.sections(at + 1, level + 1)
            made.append(Section(heading.anchor, heading.title, (*body, *inner), level))
        return made, at

    def _end(self, at: int) -> int:
        following: Sequence[Heading] = self._headings[at + 1 :]
        return following[0].first if following else len(self._lines)


def _title_after(chapter: GuideChapter) -> int:
    """The line behind the title."""
    lines = chapter.markdown.split("\n")
    first = next(i for i, line in enumerate(lines) if line.strip())
    return first + (1 if lines[first].lstrip().startswith("#") else 2)


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


def chapter_page(
    sheet: SheetInput, at: int, names: GuideNames, figures: Mapping[str, MaybeFigure]
) -> Page:
    """The page of the chapter at a place of the guide."""
    build, chapter = sheet.build, sheet.guide[at]
    whole = ChapterText(
        "",
        _numbers(chapter, names, figures),
        _links(chapter, names),
        _pictures(chapter),
        chapter.definitions,
    )
    pieces = _Pieces(chapter, whole)
    opening = pieces.first(_title_after(chapter))
    sections, _ = pieces.sections()
    first = [Section("chapter", "", tuple(opening), role="chapter")] if opening else []
    count = len(sheet.guide)
    place = f"Chapter {at + 1} of {count}" if count > 1 else "The one chapter"
    summary = f"{place}. {time_words([chapter])}."
    revised = build.source.revised
    return Page(
        chapter.page,
        "chapter",
        chapter.title,
        summary,
        (*first, *sections, _ways(sheet.guide, at)),
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
        author=build.source.author or "",
        banner=retired_banner(build),
    )
