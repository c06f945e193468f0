"""Finds and reads the files of a workspace. The only place that reads `builds/`."""

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from builder.diagnostics.finding import Collector, Finding, mistake
from builder.diagnostics.where import Place, Where
from builder.load.characters import unfit
from builder.load.limits import DEFAULT_LIMITS, Limits
from builder.load.one_file import NotRead, read_one, why
from builder.load.yaml_nodes import Document, read_yaml


@dataclass(frozen=True)
class Loaded:
    """All source files of a workspace, by their path under `builds/`, and what could not be read.

    `names` are those of all builds, of the unread ones too: what was published of them is kept.
    """

    root: Path
    documents: dict[str, Document]
    findings: tuple[Finding, ...]
    names: tuple[str, ...]
    limits: Limits

    def locate(self, where: Where) -> Place | None:
        """Line and column of a value."""
        document = self.documents.get(where.file)
        return document.locate(where) if document else None

    @property
    def builds(self) -> tuple[str, ...]:
        """Names of the builds whose file was read, in order."""
        return tuple(sorted(f.split("/")[0] for f in self.documents if f.endswith("/build.yaml")))

    @property
    def shelf_files(self) -> tuple[str, ...]:
        """The shelf's files, in order."""
        return tuple(sorted(f for f in self.documents if f.startswith("shelf/")))


def _read(
    path: Path, file: str, root: Path, limits: Limits, known: Mapping[str, Document]
) -> tuple[Document | None, tuple[Finding, ...]]:
    here = Where(file)
    odd = unfit(file)
    if odd is not None:
        problem = f"The name of this file holds {odd[1]}."
        return None, (mistake("data/bad-name", problem, "Rename it.", here),)
    try:
        raw = read_one(path, root, limits.file_kilobytes)
    except NotRead as error:
        return None, (mistake(error.code, error.problem, error.hint, here),)
    try:
        text = raw.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        problem = f"Line {line} is not UTF-8 (byte {raw[error.start]:#04x})."
        return None, (mistake("data/unreadable", problem, "Save the file as UTF-8.", here),)
    digest = hashlib.sha256(raw).hexdigest()
    if file in known and known[file].digest == digest:
        return known[file], ()
    return read_yaml(file, text, digest, limits)


def _is_there(path: Path) -> bool:
    """Whether something lies there, be it a link that leads nowhere or a folder that may not be looked into."""
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
        hint = "Check that it may be read."
        found.add(mistake("data/unreadable", f"This folder cannot be read: {why(error)}.", hint, Where(file)))
        return []


def _shelf(root: Path, limits: Limits, found: Collector) -> list[str]:
    """The shelf's files by their path under `builds/`."""
    if not _is_there(root / "shelf"):
        return []
    names = [n for n in _names(root / "shelf", "shelf", found) if n.endswith(".yaml")]
    if len(names) > limits.shelf_files:
        problem = f"The shelf has {len(names)} files; at most {limits.shelf_files} are read."
        found.add(mistake("data/too-large", problem, "Put more parts into one file.", Where("shelf")))
    return [f"shelf/{n}" for n in names[: limits.shelf_files]]


def _builds(root: Path, found: Collector) -> tuple[str, ...]:
    """The names of all builds: folders that hold a build.yaml, readable or not."""
    names = (n for n in _names(root, ".", found) if n != "shelf")
    return tuple(n for n in names if _is_there(root / n / "build.yaml"))


def build_names(workspace: Path) -> tuple[str, ...]:
    """Names of the folders that hold a build.yaml, without reading any; empty where there is no workspace."""
    return _builds(workspace / "builds", Collector())


def _sound(before: Loaded | None) -> dict[str, Document]:
    """What was read before without a finding: it need not be read again while its bytes are the same."""
    wrong = {f.where.file for f in before.findings if f.where} if before else set()
    return {file: document for file, document in before.documents.items() if file not in wrong} if before else {}


def load(workspace: Path, limits: Limits = DEFAULT_LIMITS, before: Loaded | None = None) -> Loaded:
    """Read `builds/` under a workspace folder. Never raises for what the files hold, or for what keeps them unread.

    Files that are as they were `before` are taken over, by their bytes, while the limits are the same.
    """
    root = workspace / "builds"
    found = Collector()
    documents: dict[str, Document] = {}
    known = _sound(before)
    if not root.is_dir():
        hint = "Run it where `builds/` is, name the folder with --workspace, or make one with `benchleaf start NAME`."
        found.add(mistake("data/no-workspace", f"There is no folder `builds` in the folder {workspace.resolve()}.", hint))
        return Loaded(root, documents, found.take(), (), limits)

    def take(file: str) -> None:
        document, findings = _read(root / file, file, root, limits, known if before and before.limits == limits else {})
        found.add(*findings)
        if document is not None:
            documents[file] = document

    if _is_there(root / "site.yaml"):
        take("site.yaml")
        tree = documents["site.yaml"].tree if "site.yaml" in documents else None
        limits = limits.changed(tree.get("at_most") if isinstance(tree, dict) else None)
    for file in _shelf(root, limits, found):
        take(file)
    builds = _builds(root, found)
    if len(builds) > limits.builds:
        problem = f"There are {len(builds)} builds; at most {limits.builds} are read."
        found.add(mistake("data/too-large", problem, "Publish from two workspaces.", Where(".")))
    for name in builds[: limits.builds]:
        take(f"{name}/build.yaml")
    return Loaded(root, documents, found.take(), builds, limits)
