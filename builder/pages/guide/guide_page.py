"""The table of contents of a guide, and all of its pages."""

from builder.model.guide.chapter import GuideChapter
from builder.pages.blocks import Bullets, Inline, Page, Section, Span
from builder.pages.chapter_figure import figures_by_key
from builder.pages.guide.chapter_page import chapter_page
from builder.pages.guide.guide_targets import guide_names
from builder.pages.guide.reading_time import time_words
from builder.pages.guide.whose_words import whose_words
from builder.pages.page_map import GUIDE
from builder.pages.page_of_build import page_of_build
from builder.pages.sheet_input import SheetInput
from builder.rules.data._guide_names import GuideNames


def _line(chapter: GuideChapter) -> tuple[Inline, ...]:
    """A chapter with its time and its headings."""
    said: list[Inline] = [Span(chapter.title, chapter.page, strong=True)]
    said.append(Span(f" ({time_words([chapter])})."))
    between = " "
    for heading in chapter.headings:
        if heading.level == 2:
            said += [Span(between), Span(heading.title, f"{chapter.page}#{heading.anchor}")]
            between = ", "
    return tuple(said)


def _table_of_contents(sheet: SheetInput, names: GuideNames) -> Page:
    chapters = sheet.guide
    count = len(chapters)
    many = f"{count} chapters" if count > 1 else "One chapter"
    by = "" if chapters[0].is_inherited else " by the builder"
    summary = f"{many}{by}, {time_words(chapters)}."
    items = tuple(_line(chapter) for chapter in chapters)
    listed = Section("chapters", "Chapters", (Bullets(items, ordered=True),))
    title = f"{sheet.build.title}: guide"
    whose = whose_words(sheet, chapters, names)
    return page_of_build(sheet, "guide", GUIDE, title, summary, (*whose, listed))


def guide_pages(sheet: SheetInput) -> tuple[Page, ...]:
    """The table of contents and every chapter; none for a build without chapters.

    What chapters name is known here: whoever reads them says what is not.
    """
    if not sheet.guide:
        return ()
    names, figures = guide_names(sheet), figures_by_key(sheet)
    chapters = [chapter_page(sheet, at, names, figures) for at in range(len(sheet.guide))]
    return _table_of_contents(sheet, names), *chapters
