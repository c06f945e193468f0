"""What somebody gives to start from: an archive, a folder or an address becomes files in memory.

All three go the same way: a folder is made into the archive that its publish would give, so that
the same is left out and the same is looked at.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from builder.load.archive import MOST_PACKED, NotTaken, archive_files
from builder.load.characters import unfit
from builder.load.fetch import fetched, is_web_address
from builder.load.files import Loaded
from builder.load.limits import DEFAULT_LIMITS
from builder.load.one_file import NotRead, read_one
from builder.load.pictures import KINDS
from builder.load.stored_zip import digest_of_files
from builder.load.yaml_nodes import Document, read_yaml
from builder.model.read.workspace import Workspace, read_workspace
from builder.model.values.names import (
    BUILD,
    name_mistake,
    path_mistake,
    same_on_some_disk,
    shown_picture_mistake,
)
from builder.model.values.plain_values import GIVEN_END
from builder.pages.site.source_given import ORIGIN, private_in_archive, tree_of
from builder.render.data.folder_given import archive_of_folder
from builder.render.data.given_guide import GivenGuide, given_guide, is_chapter

_ROOT = "builds/"
_MOST_TEXT = 4 * 2**20  # bytes of all YAML in an archive
_GUIDE = "guide/"
_GIVEN = re.compile(GIVEN_END).fullmatch
_LONGEST_SAID = 400  # letters of a text about its origin


@dataclass(frozen=True, eq=False)
class GivenSource:
    """What was given, read: its workspace, the build that it is about, its pictures by their path
    below `builds/`, its guide, and what it says of its origin.
    """

    build: str
    loaded: Loaded
    model: Workspace
    pictures: dict[str, bytes]
    origin: dict[str, str]
    guide: GivenGuide

    @property
    def by(self) -> str:
        """Who gave it, as far as it is said."""
        return self.origin.get("author") or self.origin.get("site") or "the giver"

    @property
    def credit(self) -> str:
        """Title, author, licence and address, as far as they are said."""
        said = map(self.origin.get, ("title", "author", "licence", "address"))
        return "; ".join(filter(None, said)) or "nobody said who"


def given_from(place: str, ask: Callable[[str], bool]) -> GivenSource:
    """What lies at a path or an address. NotTaken says in one sentence why it is not taken."""
    if is_web_address(place):
        return _of_archive(fetched(place, ask))
    path = Path(place)
    if path.is_dir():
        return _of_archive(archive_of_folder(path))
    try:
        content = read_one(path.parent, path.name, MOST_PACKED // 1024)
    except NotRead as error:
        raise NotTaken(f"{place[:200]!r} cannot be read: {error.problem}") from error
    return _of_archive(content)


def _of_archive(content: bytes) -> GivenSource:
    """An archive, looked at and read. Nothing in it is believed that is not looked at."""
    files = archive_files(content, path_mistake)
    twins = same_on_some_disk(files)
    if twins is not None:
        raise NotTaken(f"The archive holds {twins[0]!r} and {twins[1]!r}, which can be one file.")
    origin = _origin(files)
    said = origin.get("digest", "")
    if said != digest_of_files({k: v for k, v in files.items() if k != ORIGIN}):
        raise NotTaken("The archive was cut or altered: its digest is not that of its files.")
    _must_be_source(files)
    _must_be_short(files)
    texts = (v for k, v in files.items() if k.endswith((".yaml", ".md")))
    private = private_in_archive(b"\n".join(texts))
    if private:
        raise NotTaken(f"The source holds {private}; ask its author for one without.")
    below = {k.removeprefix(_ROOT): v for k, v in files.items() if k.startswith(_ROOT)}
    loaded = _loaded(below)
    _must_be_named(below, loaded)
    model = read_workspace(loaded)
    name = origin.get("build", "")
    if name_mistake(name, BUILD) is not None or name not in model.builds:
        raise NotTaken(_unread(model, name))
    guide = given_guide(name, model, below)
    return GivenSource(name, loaded, model, _named_pictures(below), origin, guide)


def _must_be_source(files: dict[str, bytes]) -> None:
    """NotTaken for a file that no source of a sheet holds."""
    for file in files:
        below = file.removeprefix(_ROOT)
        is_known = _is_source(below) or _is_picture(below) or is_chapter(below)
        may_be_given = _GIVEN(below) is not None  # which the build names; looked at when it is read
        if file != ORIGIN and not (file.startswith(_ROOT) and (is_known or may_be_given)):
            raise NotTaken(f"The archive holds {file[:100]!r}, which is no part of a source.")


def _is_picture(path: str) -> bool:
    """A picture of a build, or of its chapters."""
    build, _, name = path.partition("/")
    name = name.removeprefix(_GUIDE)
    return bool(build) and "/" not in name and name.casefold().endswith(KINDS)


def _must_be_named(below: dict[str, bytes], loaded: Loaded) -> None:
    """NotTaken for a file that is neither source nor picture nor chapter, and that no build gives."""
    named: set[str] = set()
    for build in loaded.builds:
        tree = tree_of(loaded, f"{build}/build.yaml")
        listed = tree.get("files")
        given = listed if isinstance(listed, list) else []
        named |= {f"{build}/{one.get('file')}" for one in given if isinstance(one, dict)}
    for path in below:
        is_known = _is_source(path) or _is_picture(path) or is_chapter(path)
        if not is_known and path not in named:
            raise NotTaken(f"The archive holds {path[:100]!r}, which is no part of a source.")


def _must_be_short(files: dict[str, bytes]) -> None:
    """NotTaken for more text than a build and its parts have: each line of it is looked at."""
    for file, content in files.items():
        _fits(file, content)
    if sum(len(c) for f, c in files.items() if f.endswith(".yaml")) > _MOST_TEXT:
        raise NotTaken(f"The archive holds more than {_MOST_TEXT // 2**20} MB of text.")


def _fits(file: str, content: bytes) -> None:
    most = DEFAULT_LIMITS.chapter_kilobytes
    if file.endswith(".md") and len(content) > most * 1024:
        raise NotTaken(f"{file!r} in it is longer than {most} kB.")
    if file.endswith(".yaml") and len(content) > DEFAULT_LIMITS.file_kilobytes * 1024:
        raise NotTaken(f"{file!r} in it is longer than {DEFAULT_LIMITS.file_kilobytes} kB.")


def _unread(model: Workspace, name: str) -> str:
    found = model.mistakes_of(name) or model.findings
    why = f" {found[0].message}" if found else ""
    return f"The build {name[:80]!r} in it cannot be read.{why}"


def _origin(files: dict[str, bytes]) -> dict[str, str]:
    if ORIGIN not in files:
        raise NotTaken("This archive is no source of a sheet: it does not say where it comes from.")
    tree = _document(ORIGIN, files[ORIGIN]).tree
    texts = tree.items() if isinstance(tree, dict) else ()
    said = {key: value for key, value in texts if isinstance(value, str)}
    for key, value in said.items():
        if unfit(f"{key} {value}") is not None or len(f"{key}{value}") > _LONGEST_SAID:
            raise NotTaken(f"What the archive says of its origin cannot be read: {key[:40]!r}.")
    return said


def _document(file: str, content: bytes) -> Document:
    """A YAML file of the archive. NotTaken with the first thing that is wrong with it."""
    _fits(file, content)
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError:
        raise NotTaken(f"{file!r} in it is not UTF-8.") from None
    document, findings = read_yaml(file, text, digest_of_files({file: content}), DEFAULT_LIMITS)
    if findings:
        raise NotTaken(f"{file!r} in it cannot be read: {findings[0].message}")
    return document


def _loaded(files: dict[str, bytes]) -> Loaded:
    """The documents of a workspace that lies in memory: those that have their place, and no others."""
    wanted = [path for path in sorted(files) if _is_source(path)]
    documents = {path: _document(path, files[path]) for path in wanted}
    names = tuple(path.partition("/")[0] for path in wanted if path.endswith("/build.yaml"))
    return Loaded(Path(), documents, (), names, DEFAULT_LIMITS)


def _is_source(path: str) -> bool:
    folder, _, file = path.rpartition("/")
    if folder == "shelf":
        return file.endswith(".yaml")
    of_build = file == "build.yaml" and name_mistake(folder, BUILD) is None
    return path == "site.yaml" or of_build


def _named_pictures(files: dict[str, bytes]) -> dict[str, bytes]:
    """Pictures under names that a build may give them."""
    out = {}
    for path, content in files.items():
        folder, _, name = path.partition("/")
        fits = name.casefold().endswith(KINDS) and shown_picture_mistake(name) is None
        if fits and name_mistake(folder, BUILD) is None:
            out[path] = content
    return out
