"""The chapters of a build in their order; no two have one name."""

from collections.abc import Iterable

from builder.diagnostics.finding import Finding, mistake
from builder.diagnostics.where import Where
from builder.model.guide.chapter import GuideChapter

Texts = Iterable[tuple[str, str]]  # the path of a chapter's file, and what is written there


def _twice(build: str, names: Iterable[tuple[str, str]]) -> Iterable[Finding]:
    seen: dict[str, str] = {}
    for name, file in names:
        other = seen.setdefault(name.casefold(), file)
        if other != file:
            problem = (
                f"{other.rpartition('/')[2]!r} and this file would have one address, guide/{name}/."
            )
            hint = "Rename one: the number before a name only puts chapters in order."
            yield mistake("data/twice", problem, hint, Where(file), build)


def read_guide(build: str, texts: Texts) -> tuple[tuple[GuideChapter, ...], tuple[Finding, ...]]:
    """All chapters that can be read, and every mistake in the others."""
    listed = tuple(texts)
    if not listed:
        return (), ()
    from builder.model.guide.read_chapter import (  # the parser of Markdown: a build without needs none
        chapter_name,
        read_chapter,
    )

    findings = [*_twice(build, ((chapter_name(file), file) for file, _ in listed))]
    chapters: list[GuideChapter] = []
    for file, text in listed:
        chapter, wrong = read_chapter(build, file, text)
        findings += wrong
        if chapter is not None:
            chapters.append(chapter)
    return tuple(chapters), tuple(findings)
