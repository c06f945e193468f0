"""Finds and reads the files of a workspace. The only place that reads `builds/`."""

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from builder.diagnostics.finding import Collector, Finding, mistake
from builder.diagnostics.where import Place, Where
from builder.load.limits import DEFAULT_LIMITS, Limits
from builder.load.yaml_nodes import Document, read_yaml


@dataclass(frozen=True)
class Loaded:
    """All source files of a workspace, by their path under `builds/`, and what could not be read."""

    root: Path
    documents: dict[str, Document]
    findings: tuple[Finding, ...]

    def locate(self, where: Where) -> Place | None:
        """Line and column of a value."""
        document = self.documents.get(where.file)
        return document.locate(where) if document else None

    @property
    def builds(self) -> tuple[str, ...]:
        """Names of the folders that hold a build.yaml, in order."""
        return tuple(sorted(f.split("/")[0] for f in self.documents if f.endswith("/build.yaml")))

    @property
    def shelf_files(self) -> tuple[str, ...]:
        """The shelf's files, in order."""
        return tuple(sorted(f for f in self.documents if f.startswith("shelf/")))


def _why(error: OSError) -> str:
    return error.strerror or type(error).__name__


def _read(path: Path, file: str, limits: Limits) -> tuple[Document | None, tuple[Finding, ...]]:
    here = Where(file)
    try:
        size = path.stat().st_size
        if size > limits.file_bytes:
            problem = f"This file is {size} bytes long; at most {limits.file_bytes} are read."
            return None, (mistake("data/too-large", problem, "Split it.", here),)
        raw = path.read_bytes()
    except OSError as error:
        problem = f"This file cannot be read: {_why(error)}."
        return None, (mistake("data/unreadable", problem, "Check that it exists and may be read.", here),)
    try:
        text = raw.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        problem = f"Line {line} is not UTF-8 (byte {raw[error.start]:#04x})."
        return None, (mistake("data/unreadable", problem, "Save the file as UTF-8.", here),)
    return read_yaml(file, text, hashlib.sha256(raw).hexdigest(), limits)


def _listing(root: Path, limits: Limits, found: Collector) -> Iterable[tuple[Path, str]]:
    """Every source file under `builds/`, in the order of its name."""
    if (root / "site.yaml").is_file():
        yield root / "site.yaml", "site.yaml"
    shelf = sorted(p for p in (root / "shelf").glob("*.yaml") if p.is_file()) if (root / "shelf").is_dir() else []
    if len(shelf) > limits.shelf_files:
        problem = f"The shelf has {len(shelf)} files; at most {limits.shelf_files} are read."
        found.add(mistake("data/too-large", problem, "Put more parts into one file.", Where("shelf")))
    yield from ((p, f"shelf/{p.name}") for p in shelf[: limits.shelf_files])
    folders = sorted(p for p in root.iterdir() if p.is_dir() and p.name != "shelf" and not p.name.startswith("."))
    if len(folders) > limits.builds:
        problem = f"There are {len(folders)} builds; at most {limits.builds} are read."
        found.add(mistake("data/too-large", problem, "Publish from two workspaces.", Where(".")))
    for folder in folders[: limits.builds]:
        if (folder / "build.yaml").is_file():
            yield folder / "build.yaml", f"{folder.name}/build.yaml"


def load(workspace: Path, limits: Limits = DEFAULT_LIMITS) -> Loaded:
    """Read `builds/` under a workspace folder. Never raises for what the files hold."""
    root = workspace / "builds"
    found = Collector()
    documents: dict[str, Document] = {}
    if not root.is_dir():
        hint = "Run it where `builds/` is, name the folder with --workspace, or make one with `benchleaf start NAME`."
        found.add(mistake("data/no-workspace", f"There is no folder `builds` in {workspace}.", hint))
        return Loaded(root, documents, found.take())
    try:
        for path, file in _listing(root, limits, found):
            document, findings = _read(path, file, limits)
            found.add(*findings)
            if document is not None:
                documents[file] = document
    except OSError as error:
        found.add(mistake("data/unreadable", f"The folder `builds` cannot be read: {_why(error)}."))
    return Loaded(root, documents, found.take())
