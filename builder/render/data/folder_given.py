"""A folder to start from, made into the archive that its publish would give."""

from contextlib import suppress
from dataclasses import replace
from pathlib import Path

from builder.load.archive import MOST_PACKED, NotTaken
from builder.load.files import Loaded, load
from builder.load.guide_files import GuideFile, read_guide_files
from builder.load.one_file import NotRead, read_one
from builder.load.pictures import read_picture
from builder.model.guide.chapter import GuideChapter
from builder.model.guide.read_guide import read_guide
from builder.model.read.workspace import Workspace, read_workspace
from builder.model.values.names import path_mistake
from builder.pages.site.picture_files import PictureFile, guide_pictures, picture_files
from builder.pages.site.source_given import chain_of, source_given
from builder.render.pictures.published import BadPicture, published_picture


def archive_of_folder(folder: Path) -> bytes:
    """The archive that a folder stands for: `site/<build>`, a build's folder, or a workspace with
    one build. NotTaken where it stands for none.
    """
    ready = folder / "source.zip"
    if ready.is_file():
        return read_one(folder, "source.zip", MOST_PACKED // 1024)
    name = folder.resolve().name if (folder / "build.yaml").is_file() else ""
    home = folder.resolve().parent.parent if name else folder
    loaded = load(home)
    model = read_workspace(loaded)
    name = name or _only_one(folder, model)
    if name not in model.builds:
        raise NotTaken(f"The build {name!r} there cannot be read; `benchleaf check` says why.")
    texts = _texts(name, model, loaded)
    writer = texts[0].file.partition("/")[0] if texts else name
    chapters = _chapters(name, texts)
    pictures = _pictures(name, model, loaded, chapters)
    given = source_given(name, model, loaded, pictures, writer)
    if given is None:
        raise NotTaken(f"Who wrote {name!r} does not give its source (give_source: no).")
    words = {each.file: each.text for each in texts}
    titles = tuple(chapter.title for chapter in chapters)
    files = {path: c for n in (writer, name) for path, c in _files(n, model, loaded).items()}
    return replace(given, chapters=words, files=files, titles=titles).archive()


def _only_one(folder: Path, model: Workspace) -> str:
    if len(model.names) != 1:
        listed = ", ".join(model.names[:8]) or "none"
        problem = f"This folder holds more than one build, or none: {listed}."
        raise NotTaken(problem, f"Name the folder of one: {folder}/builds/NAME.")
    return model.names[0]


def _texts(name: str, model: Workspace, loaded: Loaded) -> tuple[GuideFile, ...]:
    """The chapters of a build, or of its nearest base that has any."""
    for each in chain_of(name, model):
        files, unread = read_guide_files(loaded.root, each, loaded.limits)
        for found in unread:
            raise NotTaken(f"A chapter there cannot be read: {found.message}")
        if files:
            return files
    return ()


def _chapters(name: str, texts: tuple[GuideFile, ...]) -> tuple[GuideChapter, ...]:
    chapters, wrong = read_guide(name, [(each.file, each.text) for each in texts])
    for found in wrong:
        raise NotTaken(f"A chapter there cannot be read: {found.message}")
    return chapters


def _pictures(
    name: str, model: Workspace, loaded: Loaded, chapters: tuple[GuideChapter, ...]
) -> dict[str, bytes]:
    """The pictures of a build, its bases and its chapters, made as a publish makes them; one that
    cannot be is left out.
    """
    made: dict[str, bytes] = {}
    shown = [(p.folder, p) for p in guide_pictures(chapters)]
    shown += [(n, p) for n in chain_of(name, model) for p in picture_files(model.builds[n])]
    for build, picture in shown:
        with suppress(NotRead, BadPicture):
            made[f"{build}/{picture.name}"] = _made(picture, loaded)
    return made


def _made(picture: PictureFile, loaded: Loaded) -> bytes:
    content = read_picture(loaded.root, picture.folder, picture.name, loaded.limits)
    return published_picture(picture.name, content, loaded.limits)


def _files(build: str, model: Workspace, loaded: Loaded) -> dict[str, bytes]:
    """The files that go along, by their path below `builds/`."""
    found: dict[str, bytes] = {}
    for one in model.builds[build].source.files:
        if path_mistake(one.file):
            raise NotTaken(f"The file {one.file[:100]!r} there has no sound name.")
        most = loaded.limits.given_kilobytes
        found[f"{build}/{one.file}"] = read_one(loaded.root / build, one.file, most)
    return found
