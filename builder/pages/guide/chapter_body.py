"""The text of one chapter as blocks under its headings, for its page and for paper."""

from collections.abc import Mapping, Sequence

from builder.compute.figures.figure import MaybeFigure
from builder.model.guide.chapter import GuideChapter, Heading
from builder.pages.blocks import Block, ChapterText, Number, Picture, Section
from builder.pages.chapter_figure import chapter_figure
from builder.rules.data._guide_names import GuideNames

Figures = Mapping[str, MaybeFigure]


def _numbers(chapter: GuideChapter, names: GuideNames, figures: Figures) -> dict[str, Number]:
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

    def __init__(self, chapter: GuideChapter, whole: ChapterText, deeper: int) -> None:
        self._lines = chapter.markdown.split("\n")
        self._whole = whole
        self._deeper = deeper  # by how many levels than they were written
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
            shown = level + self._deeper
            made.append(Section(heading.anchor, heading.title, (*body, *inner), shown))
        return made, at

    def _end(self, at: int) -> int:
        following: Sequence[Heading] = self._headings[at + 1 :]
        return following[0].first if following else len(self._lines)


def _title_after(chapter: GuideChapter) -> int:
    """The line behind the title."""
    lines = chapter.markdown.split("\n")
    first = next(i for i, line in enumerate(lines) if line.strip())
    return first + (1 if lines[first].lstrip().startswith("#") else 2)


def chapter_body(
    chapter: GuideChapter, names: GuideNames, figures: Figures, level: int = 2
) -> tuple[tuple[Block | Section, ...], tuple[Section, ...]]:
    """What stands above the first heading, and a section for each heading; `level` is that of the
    highest ones.
    """
    whole = ChapterText(
        "",
        _numbers(chapter, names, figures),
        _links(chapter, names),
        _pictures(chapter),
        chapter.definitions,
    )
    pieces = _Pieces(chapter, whole, level - 2)
    sections, _ = pieces.sections()
    return tuple(pieces.first(_title_after(chapter))), tuple(sections)
