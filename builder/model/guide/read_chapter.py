"""The text of a chapter becomes a chapter, or every mistake in it at its place."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import PurePosixPath
from typing import get_args
from urllib.parse import unquote

from markdown_it.token import Token

from builder.diagnostics.finding import Collector, Finding, mistake
from builder.diagnostics.where import Where
from builder.model.guide.chapter import (
    ChapterPicture,
    GuideChapter,
    Heading,
    Reference,
    ReferenceKind,
)
from builder.model.guide.markdown_parser import FIGURE, chapter_parser
from builder.model.guide.places import ChapterPlaces
from builder.model.guide.web_address import is_full_address
from builder.model.values.names import CHAPTER, name_mistake, shown_picture_mistake

_NUMBER = re.compile(r"\d+-(?=.)")
_DEEPEST, _LEAST_HEADING = 4, 2
_MOST_NESTED = 12  # levels of lists and quotations; at 20 the parser drops what is deeper
_MOST_COLUMNS = 12  # of a table, which a page can still show
_KINDS: frozenset[str] = frozenset(get_args(ReferenceKind))
_OPEN_FIGURE = re.compile(r"\{\s*figure\b|\{figure:")
_LINKS = (
    "Link to https://..., to #a-heading, to NEXT-CHAPTER.md, step:ID, part:NAME or files:NAME; a name"
    " with blanks stands between < and >."
)
_PICTURE_ALONE = "Put it on a line of its own: ![what it shows](picture.svg)"


def chapter_name(file: str) -> str:
    """The name of a chapter by its file: `guide/02-wiring.md` is wiring."""
    return _NUMBER.sub("", PurePosixPath(file).stem, count=1)


@dataclass(eq=False)
class _Reader:
    """Reads one chapter; local to a call."""

    build: str
    file: str
    markdown: str
    places: ChapterPlaces
    found: Collector = field(default_factory=Collector)
    title: str = ""
    headings: list[Heading] = field(default_factory=list)
    references: list[Reference] = field(default_factory=list)
    pictures: list[ChapterPicture] = field(default_factory=list)
    words: list[str] = field(default_factory=list)
    at: tuple[int, int] = (0, 1)  # lines of the block that is read

    def wrong(self, problem: str, hint: str, where: Where | None = None) -> None:
        """Adds a mistake; without a place at the first line of the block."""
        here = where or self.places.line(self.at[0])
        self.found.add(mistake("data/guide", problem, hint, here, self.build))

    def read(self) -> GuideChapter | None:
        """The chapter, or none with the mistakes in `found`."""
        env: dict[str, object] = {}
        tokens = chapter_parser().parse(self.markdown, env)
        self._shape(tokens)
        for before, token in zip([None, *tokens], tokens, strict=False):
            if token.map is not None:
                self.at = token.map[0], token.map[1]
            if token.type == "inline":
                self._inline(token, before)
        if not self.title:
            self._without_title()
        if self.found.findings:
            return None
        return GuideChapter(
            self.build,
            chapter_name(self.file),
            self.title,
            self.file,
            self.markdown,
            "\n".join(self.words),
            tuple(self.headings),
            tuple(self.references),
            tuple(self.pictures),
            _definitions(env),
        )

    def _without_title(self) -> None:
        if not self.found.findings:
            hint = "Write '# Title' on its first line."
            self.wrong("This chapter has no title.", hint, self.places.line(0))

    def _shape(self, tokens: list[Token]) -> None:
        """What the parser would drop or a page could not show."""
        for token in tokens:
            if token.map is not None:
                self.at = token.map[0], token.map[1]
            if token.level > _MOST_NESTED:
                self.wrong("Lists and quotations are nested too deep here.", "Write them flatter.")
                return
            if token.type == "tr_open":
                self._columns()

    def _columns(self) -> None:
        line = self.places.lines[self.at[0]]
        if line.strip().strip("|").count("|") >= _MOST_COLUMNS:
            problem = f"This table has over {_MOST_COLUMNS} columns."
            self.wrong(problem, "Turn it round, or make two tables of it.")

    def _inline(self, token: Token, before: Token | None) -> None:
        children = token.children or []
        if before is not None and before.type == "heading_open":
            self._heading(int(before.tag[1:]), before.level, children)
            return
        if not self.title:
            hint = "Write '# Title' on its first line."
            self.wrong("A chapter begins with its title.", hint)
            self.title = "-"
        alone = [c for c in children if c.type != "softbreak"]
        on_its_own = before is not None and before.type == "paragraph_open" and not before.level
        for child in children:
            if child.type == "image":
                self._image(child, fits=on_its_own and len(alone) == 1)
            else:
                self._child(child)
        self.words.append("".join(_plain(children)))

    def _heading(self, level: int, nested: int, children: list[Token]) -> None:
        text = "".join(_plain(children)).strip()
        if nested:
            self.wrong("A heading is in a list or a quotation.", "Begin it at the left edge.")
        if not text or any(c.type not in ("text", "code_inline", "softbreak") for c in children):
            hint = "Write plain words: no link, no picture, no number of the build."
            self.wrong("A heading holds words only.", hint)
            return
        if level == 1:
            self._title(text)
            return
        last = self.headings[-1].level if self.headings else 1
        if level > min(last + 1, _DEEPEST):
            least = max(min(last + 1, _DEEPEST), _LEAST_HEADING)
            problem = f"This heading is of level {level} below one of level {last}."
            self.wrong(problem, f"Begin it with {'#' * least}.")
        anchor = _anchor(text, len(self.headings) + 1, {h.anchor for h in self.headings})
        self.headings.append(Heading(anchor, text, level, *self.at))
        self.words.append(text)

    def _title(self, text: str) -> None:
        if self.title:
            hint = "Begin this heading with ##, or make a file of its own."
            self.wrong("A chapter has one title.", hint)
            return
        self.title = text

    def _child(self, child: Token) -> None:
        if child.type == FIGURE:
            self._refer("figure", child.content, f"{{figure:{child.content}")
        elif child.type == "link_open":
            self._link(unquote(str(child.attrs.get("href", ""))))
        elif child.type == "text" and (odd := _OPEN_FIGURE.search(child.content)):
            where = self.places.of(odd[0], *self.at)
            self.wrong("This names no figure.", "Write {figure:KEY} on one line.", where)

    def _refer(self, kind: ReferenceKind, name: str, written: str, rest: str = "") -> None:
        where = self.places.of(written, *self.at)
        below = self.headings[-1].anchor if self.headings else ""
        self.references.append(Reference(kind, name, below, where, rest, written))

    def _link(self, address: str) -> None:
        kind, _, name = address.partition(":")
        if kind in _KINDS and name:
            self._refer(kind, name.strip(), address)  # type: ignore[arg-type]
            return
        file, _, rest = address.partition("#")
        if file.endswith(".md") and "/" not in file and ":" not in file:
            self._refer("chapter", chapter_name(file), address, rest)
            return
        if address.startswith("#") and rest:
            self._refer("chapter", chapter_name(self.file), address, rest)
            return
        if not is_full_address(address):
            where = self.places.of(address[:40], *self.at)
            self.wrong("This is no address that a chapter may link to.", _LINKS, where)

    def _image(self, image: Token, *, fits: bool) -> None:
        source = unquote(str(image.attrs.get("src", "")))
        where = self.places.of(source, *self.at)
        alt = "".join(_plain(image.children or [])).strip()
        if not fits:
            self.wrong("A picture is in the middle of a text.", _PICTURE_ALONE, where)
        elif not alt:
            hint = "Write what it shows: ![The wedge, lens to the left](wedge.svg)"
            self.wrong("This picture has no words for who cannot see it.", hint, where)
        else:
            self._picture(source, alt, str(image.attrs.get("title", "")), where)

    def _picture(self, source: str, alt: str, caption: str, where: Where) -> None:
        file = source[3:] if source.startswith("../") else f"guide/{source}"
        bad = shown_picture_mistake(file)
        if bad is not None:
            self.wrong(*bad, where)
            return
        if file.casefold().endswith((".svg", ".png", ".jpg", ".jpeg", ".webp")):
            self.pictures.append(ChapterPicture(source, file, alt, caption, where))
            return
        hint = "Name a file beside the chapter that ends in .svg, .png, .jpg or .webp."
        self.wrong(f"{source!r} names no picture.", hint, where)


def _plain(children: list[Token]) -> Iterator[str]:
    """The words of a line of text."""
    for child in children:
        if child.type in ("text", "code_inline"):
            yield child.content
        elif child.type in ("softbreak", "hardbreak"):
            yield " "
        elif child.type == "image":
            yield from _plain(child.children or [])


def _anchor(title: str, number: int, taken: set[str]) -> str:
    letters = [c if c.isalnum() and c.isascii() else " " for c in title.casefold()]
    anchor = f"at-{'-'.join(''.join(letters).split()[:8]) or number}"
    while anchor in taken:
        anchor = f"{anchor}-{number}"
    return anchor


def _definitions(env: dict[str, object]) -> tuple[tuple[str, str, str], ...]:
    found = env.get("references", {})
    if not isinstance(found, dict):
        return ()
    return tuple((label, said["href"], said.get("title", "")) for label, said in found.items())


def read_chapter(
    build: str, file: str, text: str
) -> tuple[GuideChapter | None, tuple[Finding, ...]]:
    """A chapter by the path of its file below `builds/`; none where it has a mistake."""
    bad = name_mistake(chapter_name(file), CHAPTER)
    if bad is not None:
        return None, (mistake("data/bad-name", *bad, Where(file), build),)
    lines = text.split("\n")
    reader = _Reader(build, file, text, ChapterPlaces(file, lines))
    chapter = reader.read()
    return chapter, reader.found.take()
