"""The chapters of a guide behind the work on paper, where the build asks for them."""

from builder.model.guide.chapter import GuideChapter
from builder.pages.blocks import Block, Paragraph, Section, Span
from builder.pages.chapter_figure import figures_by_key
from builder.pages.guide.chapter_body import Figures, chapter_body
from builder.pages.guide.guide_targets import guide_names
from builder.pages.guide.whose_words import whose_words
from builder.pages.sheet_input import SheetInput
from builder.rules.data._guide_names import GuideNames

_WHOSE = (
    "Written by the builder. If it says something else than the steps and cautions before it, follow"
    " the steps and cautions."
)
_LEVEL = 3  # of the highest headings in a chapter, whose title is of level 2


def _printed(
    sheet: SheetInput, chapter: GuideChapter, names: GuideNames, figures: Figures
) -> Section:
    opening, sections = chapter_body(chapter, names, figures, _LEVEL)
    whose = [block for section in whose_words(sheet, [chapter], names) for block in section.blocks]
    body: tuple[Block | Section, ...] = (*whose, *opening, *sections)
    return Section(f"guide-{chapter.name}", f"Guide: {chapter.title}", body)


def guide_on_paper(sheet: SheetInput) -> tuple[Section, ...]:
    """A section for each chapter, the first one on a sheet of its own; none unless they are asked
    for.
    """
    if not (sheet.guide and sheet.build.source.guide_on_paper):
        return ()
    names, figures = guide_names(sheet), figures_by_key(sheet)
    made = [_printed(sheet, chapter, names, figures) for chapter in sheet.guide]
    first, *others = made
    whose = Paragraph((Span(_WHOSE),))
    begun = Section(first.anchor, first.heading, (whose, *first.blocks), break_before=True)
    return begun, *others
