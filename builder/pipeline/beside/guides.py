"""The chapters of a build and the files that it gives along, read for a check, a preview or a publish."""

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from builder.diagnostics.finding import Finding, mistake
from builder.load.guide_files import GuideFile, read_guide_files
from builder.load.limits import Limits
from builder.load.one_file import NotRead, read_one
from builder.model.build import Build
from builder.model.guide.chapter import GuideChapter
from builder.model.guide.given_along import GivenAlong
from builder.model.guide.read_guide import read_guide
from builder.model.read.read_cache import digest_of
from builder.model.values.names import path_mistake
from builder.pages.guide.reading_time import minutes_to_read
from builder.rules.data._guide_names import private_lines
from builder.rules.data._private_words import private_in

GuideRead = tuple[tuple[GuideChapter, ...], tuple[Finding, ...]]


@dataclass(frozen=True)
class GuideSource:
    """The chapters of a build as they lie there; parsed when somebody asks for them."""

    build: str
    files: tuple[GuideFile, ...]
    unread: tuple[Finding, ...]

    @cached_property
    def digest(self) -> str:
        """The digest of all that was written; '' for a build without chapters."""
        return digest_of([[f.file, f.digest] for f in self.files]) if self.files else ""

    @property
    def writer(self) -> str:
        """The build in whose folder they are; the build itself where there are none."""
        return self.files[0].file.partition("/")[0] if self.files else self.build

    @cached_property
    def _read(self) -> GuideRead:
        return read_guide(self.build, [(f.file, f.text) for f in self.files])

    @property
    def chapters(self) -> tuple[GuideChapter, ...]:
        """Those that can be read."""
        return self._read[0]

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Why others cannot, and what none of them may give away."""
        private = [private_lines(self.build, f.file, f.text) for f in self.files]
        return (*self.unread, *self._read[1], *(found for each in private for found in each))

    @cached_property
    def outline(self) -> str:
        """The digest of what other pages show of the guide: titles, headings, what it leads to and
        how long it takes; the words themselves are not in it.
        """
        return outline_digest(self.chapters)


def outline_digest(chapters: tuple[GuideChapter, ...]) -> str:
    """The digest of chapters without their words."""
    said = [_outline(chapter) for chapter in chapters]
    return digest_of(said) if said else ""


def _outline(chapter: GuideChapter) -> list[object]:
    headings = [(h.anchor, h.title, h.level) for h in chapter.headings]
    references = {(r.kind, r.name, r.anchor, r.rest) for r in chapter.references}
    minutes = minutes_to_read([chapter])
    return [chapter.name, chapter.writer, chapter.title, minutes, headings, sorted(references)]


def guide_source(root: Path, chain: Sequence[str], limits: Limits) -> GuideSource:
    """The chapters of a build, by the folder of all builds: its own, else those of its nearest base
    that has any. `chain` is the build and its bases.
    """
    files: tuple[GuideFile, ...] = ()
    unread: tuple[Finding, ...] = ()
    for each in chain:
        files, unread = read_guide_files(root, each, limits)
        if files or unread:
            break
    return GuideSource(chain[0], files, unread)


@dataclass(frozen=True)
class GivenFiles:
    """The files that a build gives along: their bytes by name, what is said of each, and what is
    wrong with others.
    """

    contents: dict[str, bytes]
    given: tuple[GivenAlong, ...]
    findings: tuple[Finding, ...]


def _private(content: bytes) -> str:
    """What a file would give away, in words; '' for nothing."""
    lines = content.decode("utf-8", "replace").splitlines()
    return next((what for line in lines for _, what in private_in(line)), "")


def _bytes_of(root: Path, build: str, file: str, limits: Limits) -> bytes:
    """NotRead for a path that leads elsewhere, and for what cannot be read."""
    odd = path_mistake(file)
    if odd:
        problem = f"The path {file!r} {odd}."
        raise NotRead("data/bad-name", problem, "Name a plain file below the build's folder.")
    return read_one(root / build, file, limits.given_kilobytes)


def given_files(build: Build, root: Path, limits: Limits) -> GivenFiles:
    """All of them; a build with one that cannot be given is not published."""
    contents: dict[str, bytes] = {}
    given: list[GivenAlong] = []
    findings: list[Finding] = []
    for at, one in enumerate(build.source.files):
        where = build.where("files", at, "file")
        try:
            content = _bytes_of(root, where.file.split("/")[0], one.file, limits)
        except NotRead as error:
            findings.append(mistake(error.code, error.problem, error.hint, where, build.name))
            continue
        private = _private(content)
        if private:
            problem = f"The file {one.file!r} would publish {private}."
            hint = "Take it out of the file, or the file out of the list."
            findings.append(mistake("data/guide-private", problem, hint, where, build.name))
        contents[one.name] = content
        digest = hashlib.sha256(content).hexdigest()
        given.append(GivenAlong(one.name, one.what, len(content), digest, where))
    return GivenFiles(contents, tuple(given), tuple(findings))
