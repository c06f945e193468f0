"""Finds and reads the files of a workspace. The only place that reads `builds/`."""

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from builder.diagnostics.finding import Collector, Finding, mistake
from builder.diagnostics.where import SourcePlace, Where
from builder.load.characters import unfit
from builder.load.documents import Documents, Sound, SourceText
from builder.load.guide_files import place_in_text
from builder.load.limits import DEFAULT_LIMITS, Limits
from builder.load.one_file import NotRead, decoded_text, read_one, why
from builder.load.yaml_nodes import Document, read_yaml

_NONE_SOUND = Sound()
_MAY_READ = "Check that it may be read."
_NO_BUILDS = (
    "Run it where `builds/` is, name the folder with --workspace, or make one with"
    " `benchleaf start NAME`."
)
_NO_LINK = "Put the folder itself there, or name the folder that holds it with --workspace."


@dataclass(frozen=True)
class Loaded:
    """All source files of a workspace, by their path under `builds/`, and what could not be read.

    `names` are those of all builds, of the unread ones too: what was published of them is kept.
    """

    root: Path
    documents: Mapping[str, Document]
    findings: tuple[Finding, ...]
    names: tuple[str, ...]
    limits: Limits

    def locate(self, where: Where) -> SourcePlace | None:
        """Line and column of a value."""
        if where.file.endswith(".md"):
            return place_in_text(self.root, where, self.limits)
        document = self.documents.get(where.file)
        return document.locate(where) if document else None

    def digest(self, file: str) -> str:
        """The digest of a file's bytes. KeyError for one that was not read."""
        of = self.documents
        return of.digest(file) if isinstance(of, Documents) else of[file].digest

    def holds_keys(self, file: str) -> bool:
        """Whether a file is a group of keys. KeyError for one that was not read."""
        of = self.documents
        return of.holds_keys(file) if isinstance(of, Documents) else isinstance(of[file].tree, dict)

    @property
    def sound(self) -> Sound:
        """The files that hold keys and were read without a mistake."""
        wrong = {f.where.file for f in self.findings if f.where}
        right = (file for file in self.documents if file not in wrong and self.holds_keys(file))
        return Sound(str(self.limits), {file: self.digest(file) for file in right})

    @property
    def builds(self) -> tuple[str, ...]:
        """Names of the builds whose file was read, in order."""
        return tuple(sorted(f.split("/")[0] for f in self.documents if f.endswith("/build.yaml")))

    @property
    def shelf_files(self) -> tuple[str, ...]:
        """The shelf's files, in order."""
        return tuple(sorted(f for f in self.documents if f.startswith("shelf/")))


def _read(root: Path, file: str, limits: Limits) -> SourceText | Finding:
    """The text of a file, or the mistake that keeps it unread."""
    here = Where(file)
    odd = unfit(file)
    if odd is not None:
        return mistake(
            "data/bad-name", f"The name of this file holds {odd[1]}.", "Rename it.", here
        )
    try:
        raw = read_one(root, file, limits.file_kilobytes)
        text = decoded_text(raw)
    except NotRead as error:
        return mistake(error.code, error.problem, error.hint, here)
    return SourceText(file, text, hashlib.sha256(raw).hexdigest(), limits)


def _is_there(path: Path) -> bool:
    """Whether something lies there, be it a link that leads nowhere or a folder that may not be
    looked into.
    """
    try:
        path.lstat()
    except (FileNotFoundError, NotADirectoryError):
        return False
    except OSError:
        return True
    return True


def _names(folder: Path, file: str, found: Collector) -> list[str]:
    """What lies in a folder, in order, without dot-files."""
    try:
        return sorted(p.name for p in folder.iterdir() if not p.name.startswith("."))
    except OSError as error:
        found.add(
            mistake(
                "data/unreadable",
                f"This folder cannot be read: {why(error)}.",
                _MAY_READ,
                Where(file),
            )
        )
        return []


def _shelf(root: Path, limits: Limits, found: Collector) -> list[str]:
    """The shelf's files by their path under `builds/`."""
    if not _is_there(root / "shelf"):
        return []
    names = [n for n in _names(root / "shelf", "shelf", found) if n.endswith(".yaml")]
    if len(names) > limits.shelf_files:
        problem = f"The shelf has {len(names)} files; at most {limits.shelf_files} are read."
        found.add(
            mistake("data/too-large", problem, "Put more parts into one file.", Where("shelf"))
        )
    return [f"shelf/{n}" for n in names[: limits.shelf_files]]


def _builds(root: Path, found: Collector) -> tuple[str, ...]:
    """The names of all builds: folders that hold a build.yaml, readable or not."""
    names = (n for n in _names(root, ".", found) if n != "shelf")
    return tuple(n for n in names if _is_there(root / n / "build.yaml"))


def build_names(workspace: Path) -> tuple[str, ...]:
    """Names of the folders that hold a build.yaml, without reading any; empty where there is no
    workspace.
    """
    return _builds(workspace / "builds", Collector())


@dataclass(eq=False)
class _Reader:
    """Reads files one after the other; local to a call. What is `sound` need not be parsed, or was,
    `before`.
    """

    root: Path
    before: Mapping[str, Document]
    sound: tuple[Sound, ...]
    documents: Documents = field(default_factory=Documents)
    found: Collector = field(default_factory=Collector)

    def take(self, file: str, limits: Limits) -> None:
        """Reads a file, and parses it unless it is known to be sound."""
        text = _read(self.root, file, limits)
        if isinstance(text, Finding):
            self.found.add(text)
            return
        if any(sound.holds(text) for sound in self.sound):
            self.documents.hold(text, self._parsed(text))
            return
        document, findings = read_yaml(file, text.text, text.digest, limits)
        self.found.add(*findings)
        self.documents.hold(text, document, wrong=bool(findings))

    def _parsed(self, text: SourceText) -> Document | None:
        """Its document, if it was parsed before and is held still."""
        held = self.before.held(text.file) if isinstance(self.before, Documents) else None
        return held if held is not None and held.digest == text.digest else None


def _not_there(workspace: Path, root: Path) -> Finding | None:
    """Why a workspace's `builds/` is not read: it is not there, may not be looked into, or is a
    link to what lies outside.
    """
    try:
        is_there = root.is_dir()
        outside = not root.resolve().is_relative_to(workspace.resolve())
    except (OSError, RuntimeError) as error:
        said = why(error) if isinstance(error, OSError) else "its links lead in a circle"
        problem = f"This folder cannot be read: {said}."
        return mistake("data/unreadable", problem, _MAY_READ, Where("."))
    if not is_there:
        problem = f"There is no folder `builds` in the folder {workspace.resolve()}."
        return mistake("data/no-workspace", problem, _NO_BUILDS)
    if outside:
        problem = "`builds` is a link that leads out of the workspace."
        return mistake("data/unreadable", problem, _NO_LINK, Where("."))
    return None


def load(
    workspace: Path,
    limits: Limits = DEFAULT_LIMITS,
    before: Loaded | None = None,
    sound: Sound = _NONE_SOUND,
) -> Loaded:
    """Read `builds/` under a workspace folder. Never raises for what the files hold, or for what
    keeps them unread.

    Files that are as they were `before` are taken over, by their bytes, while the limits are the
    same; those that are `sound` are parsed only when they are asked for.
    """
    root = workspace / "builds"
    held, sounds = (before.documents, (sound, before.sound)) if before else ({}, (sound,))
    reader = _Reader(root, held, sounds)
    found = reader.found
    wrong = _not_there(workspace, root)
    if wrong is not None:
        found.add(wrong)
        return Loaded(root, {}, found.take(), (), limits)
    if _is_there(root / "site.yaml"):
        reader.take("site.yaml", limits)
        tree = reader.documents["site.yaml"].tree if "site.yaml" in reader.documents else None
        limits = limits.changed(tree.get("at_most") if isinstance(tree, dict) else None)
    for file in _shelf(root, limits, found):
        reader.take(file, limits)
    builds = _builds(root, found)
    if len(builds) > limits.builds:
        problem = f"There are {len(builds)} builds; at most {limits.builds} are read."
        found.add(mistake("data/too-large", problem, "Publish from two workspaces.", Where(".")))
    for name in builds[: limits.builds]:
        reader.take(f"{name}/build.yaml", limits)
    return Loaded(root, reader.documents, found.take(), builds, limits)
