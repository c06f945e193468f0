"""The guide of a source that was given: chapters, their pictures, and the files that go along. Each is
taken by a name that was looked at, or the source is not taken.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

from builder.diagnostics.finding import Finding
from builder.load.archive import NotTaken
from builder.load.guide_files import FOLDER, GuideFile, as_guide_file
from builder.load.limits import DEFAULT_LIMITS
from builder.model.guide.chapter import GuideChapter
from builder.model.guide.read_chapter import chapter_name
from builder.model.guide.read_guide import read_guide
from builder.model.read.workspace import Workspace
from builder.model.source.build_along import GivenFile
from builder.model.values.names import CHAPTER, name_mistake
from builder.model.values.plain_values import GIVEN_END

_MAY_GO_ALONG = re.compile(GIVEN_END).fullmatch
_BUILD = "build.yaml"  # which no file that is given along may take the place of


@dataclass(frozen=True, eq=False)
class GivenGuide:
    """Texts of chapters by the names of their files, pictures by their path below the build's folder,
    and the files that go along, with what is said of each.
    """

    chapters: Mapping[str, str] = field(default_factory=dict)
    pictures: Mapping[str, bytes] = field(default_factory=dict)
    files: Mapping[str, bytes] = field(default_factory=dict)
    listed: tuple[GivenFile, ...] = ()


def is_chapter(path: str) -> bool:
    """Whether a path below `builds/` is that of a chapter."""
    *folders, file = path.split("/")
    if len(folders) != 2 or folders[1] != FOLDER or not file.endswith(".md"):
        return False
    return name_mistake(chapter_name(file), CHAPTER) is None


def given_guide(name: str, model: Workspace, below: Mapping[str, bytes]) -> GivenGuide:
    """The guide of a build in an archive, whose files are `below` `builds/`. NotTaken for one that
    cannot be read.
    """
    for each in model.builds[name].chain:
        texts = _texts(each, below)
        if texts:
            return _guide((each, name), texts, model, below)
    return _guide((name,), [], model, below)


def _texts(build: str, below: Mapping[str, bytes]) -> list[GuideFile]:
    """The chapters in a build's folder, in order."""
    named = sorted(p for p in below if p.startswith(f"{build}/{FOLDER}/") and is_chapter(p))
    if len(named) > DEFAULT_LIMITS.chapters:
        raise NotTaken(f"The guide in it has more than {DEFAULT_LIMITS.chapters} chapters.")
    return [_text(path, below[path], build) for path in named]


def _text(path: str, content: bytes, build: str) -> GuideFile:
    read = as_guide_file(path, content, build)
    if isinstance(read, Finding):
        raise NotTaken(f"The chapter {path!r} in it cannot be read: {read.message}")
    return read


def _guide(
    names: tuple[str, ...], texts: list[GuideFile], model: Workspace, below: Mapping[str, bytes]
) -> GivenGuide:
    """The guide that these builds write: the one whose chapters they are, and the given one."""
    chapters, wrong = read_guide(names[0], [(t.file, t.text) for t in texts])
    for found in wrong:
        file = found.where.file if found.where is not None else names[0]
        raise NotTaken(f"The chapter {file!r} in it cannot be read: {found.message}")
    named = {text.file.rpartition("/")[2]: text.text for text in texts}
    listed: dict[str, GivenFile] = {}
    files: dict[str, bytes] = {}
    for name in names:
        for one in model.builds[name].source.files:
            listed[one.name] = one
            files[one.file] = _file(name, one, below)
    return GivenGuide(named, _pictures(chapters, below), files, tuple(listed.values()))


def _pictures(chapters: tuple[GuideChapter, ...], below: Mapping[str, bytes]) -> dict[str, bytes]:
    found: dict[str, bytes] = {}
    for chapter in chapters:
        for picture in chapter.pictures:
            path = f"{chapter.writer}/{picture.file}"
            if path not in below:
                raise NotTaken(f"The picture {picture.file!r} of a chapter is not in it.")
            found[picture.file] = below[path]
    return found


def _file(build: str, one: GivenFile, below: Mapping[str, bytes]) -> bytes:
    """The bytes of a file that goes along."""
    content = below.get(f"{build}/{one.file}")
    if _MAY_GO_ALONG(one.file) is None:  # a picture is made anew, and goes no other way
        raise NotTaken(f"The file {one.file[:100]!r} cannot go along: its ending is none of those.")
    if content is None or one.file.casefold() == _BUILD:
        raise NotTaken(f"The file {one.file[:100]!r}, which goes along, is not in it.")
    if len(content) > DEFAULT_LIMITS.given_kilobytes * 1024:
        raise NotTaken(f"{one.file[:100]!r} is larger than {DEFAULT_LIMITS.given_kilobytes} kB.")
    return content
