"""The guide of a source that was given, as the guide of the build that is started from it."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from builder.diagnostics.finding import Finding
from builder.model.guide.read_guide import read_guide
from builder.pages.guide.guide_targets import guide_names
from builder.pages.guide.known_words import mistakes_of_words
from builder.pages.sheet_input import SheetInput
from builder.render.data.given_guide import GivenGuide

_FIGURE = re.compile(r"\{figure:([^{}\n]*)\}")
_LOST = "(not known yet)"  # in place of a figure that the giver's own aircraft had


@dataclass(frozen=True, eq=False)
class OwnGuide:
    """Texts of chapters by the names of their files, files that go along by their path below the
    build's folder, and what the chapters name that the new build does not have.
    """

    chapters: Mapping[str, str]
    files: Mapping[str, bytes]
    unknown: tuple[Finding, ...]

    def written(self, build: str) -> dict[str, str | bytes]:
        """All of them by their path below `builds/`."""
        texts = {f"{build}/guide/{name}": text for name, text in self.chapters.items()}
        return texts | {f"{build}/{file}": content for file, content in self.files.items()}


def _in_guide(sheet: SheetInput, texts: Mapping[str, str]) -> SheetInput:
    """The new build with chapters of these texts, which could be read as they were given."""
    name = sheet.build.name
    listed = [(f"{name}/guide/{file}", text) for file, text in sorted(texts.items())]
    return replace(sheet, guide=read_guide(name, listed)[0])


def own_guide(sheet: SheetInput, given: GivenGuide) -> OwnGuide:
    """The guide for the new build, which was judged; a figure that it has not is not known yet."""
    there = guide_names(_in_guide(sheet, given.chapters)).by_kind["figure"]

    def known(found: re.Match[str]) -> str:
        return found[0] if found[1].strip() in there else _LOST

    texts = {file: _FIGURE.sub(known, text) for file, text in given.chapters.items()}
    unknown = mistakes_of_words(_in_guide(sheet, texts)) if texts else ()
    return OwnGuide(texts, given.files, unknown)
