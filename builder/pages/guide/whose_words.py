"""Whose words a guide is: a variant without chapters of its own shows those of its base."""

from collections.abc import Sequence

from builder.model.build import Build
from builder.model.guide.chapter import GuideChapter
from builder.model.source.build_along import Origin
from builder.pages.blocks import Inline, Paragraph, Section, Span
from builder.pages.page_map import SHEET, page_address
from builder.pages.sheet_input import SheetInput
from builder.rules.data._guide_names import GuideNames

_NUMBERS = "Numbers that the sheet works out are those of this build; others are the writer's."


def writer_of(sheet: SheetInput) -> Build:
    """The build whose words its chapters are: itself, or one of its bases."""
    build: Build | None = sheet.build
    wanted = sheet.guide[0].writer if sheet.guide else sheet.build.name
    while build is not None and build.name != wanted:
        build = build.base or build.like
    return build or sheet.build


def _lacking(chapters: Sequence[GuideChapter], names: GuideNames) -> str:
    """What the words name and the variant does not have, each once."""
    named = [r for chapter in chapters for r in chapter.references]
    return ", ".join(dict.fromkeys(r.name for r in named if names.meant(r) is None))


def _of_base(
    sheet: SheetInput, chapters: Sequence[GuideChapter], names: GuideNames
) -> list[Inline]:
    base = writer_of(sheet)
    by = f" by {base.source.author}" if base.source.author else ""
    said: list[Inline] = [
        Span("Written for "),
        Span(base.title, page_address(base.name, SHEET)),
        Span(f"{by}, of which this build is a variant. {_NUMBERS}"),
    ]
    lacking = _lacking(chapters, names)
    if lacking:
        said.append(Span(f" This build does not have: {lacking}."))
    return said


def _of_giver(origins: Sequence[Origin], chapter: GuideChapter) -> list[Inline]:
    """Who wrote the chapter that somebody started from: the first one who gave it."""
    first = next((one for one in origins if chapter.name in one.chapters), None)
    if first is None:
        return []
    by = f" by {first.author}" if first.author else ""
    licence = first.licence or "not stated"
    return [Span(f"Begun from the guide of {first.title}{by}; licence: {licence}. {_NUMBERS}")]


def whose_words(
    sheet: SheetInput, chapters: Sequence[GuideChapter], names: GuideNames
) -> tuple[Section, ...]:
    """A section that says so above the words of a base or of a giver; none above one's own."""
    if chapters[0].is_inherited:
        said = _of_base(sheet, chapters, names)
    else:
        origins = writer_of(sheet).source.origin
        said = next(filter(None, (_of_giver(origins, c) for c in chapters)), [])
    if not said:
        return ()
    return (Section("whose-words", "", (Paragraph(tuple(said)),), role="chapter"),)
