"""What has to be made again: digests of sources and code against the manifest; files as they lie on
the disk.
"""

import hashlib
import os
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib import metadata
from pathlib import Path

import builder
from builder.publish.kept.manifest import JobRecord, Output
from builder.publish.plain_files import read_plain

# What the wheel requires (`dependencies` of pyproject.toml); what these require in turn is found
# from them.
REQUIRED = (
    "click",
    "fontpkg-ibm-plex-mono",
    "fontpkg-ibm-plex-sans",
    "fontpkg-ibm-plex-sans-condensed",
    "fonttools",
    "jinja2",
    "markdown-it-py",
    "pillow",
    "pydantic",
    "pypdfium2",
    "pyyaml",
    "segno",
    "watchfiles",
    "weasyprint",
)


def sha(content: bytes) -> str:
    """The digest of an output."""
    return hashlib.sha256(content).hexdigest()


def output_of(content: bytes) -> Output:
    """The record of an output."""
    return Output(sha(content), len(content))


def _files_below(folder: Path) -> Iterable[Path]:
    return sorted(p for p in folder.rglob("*") if p.is_file() and "__pycache__" not in p.parts)


def _add_files(digest: "hashlib._Hash", root: Path) -> None:
    for path in _files_below(root):
        if path.suffix != ".pyc":
            digest.update(os.fsencode(f"{path.relative_to(root)}\0"))  # a name may be no UTF-8
            digest.update(hashlib.sha256(path.read_bytes()).digest())


def _required(line: str) -> tuple[str, frozenset[str], str]:
    """A line of `Requires-Dist`: the name as every index writes it, the extras that are asked for,
    the marker.
    """
    requirement, _, marker = line.partition(";")
    found = re.match(r"\s*([A-Za-z0-9._-]+)\s*(?:\[([^\]]*)\])?", requirement)
    name, extras = (found[1], found[2] or "") if found else (requirement, "")
    return (
        re.sub("[-_.]+", "-", name).lower(),
        frozenset(e.strip() for e in extras.split(",") if e.strip()),
        marker,
    )


def _is_asked(marker: str, extras: frozenset[str]) -> bool:
    """Whether a requirement counts: one of an extra only where that was asked for. Other markers
    ask what is installed.
    """
    of = re.findall(r"extra\s*==\s*['\"]([^'\"]+)['\"]", marker)
    return not of or bool(extras & set(of))


def library_versions() -> dict[str, str]:
    """The version of every library that ours requires and that those require, by name; 'absent' for
    what is not there.

    It reads what is installed and imports none of it.
    """
    versions: dict[str, str] = {}
    seen: set[tuple[str, frozenset[str]]] = set()
    waiting: list[tuple[str, frozenset[str]]] = [(name, frozenset()) for name in REQUIRED]
    while waiting:
        name, extras = asked = waiting.pop()
        if asked in seen:
            continue
        seen.add(asked)
        try:
            about = metadata.metadata(name)
        except metadata.PackageNotFoundError:
            versions[name] = "absent"
            continue
        versions[name] = about["Version"]
        needs = map(_required, about.get_all("Requires-Dist") or ())
        waiting += [(other, wanted) for other, wanted, marker in needs if _is_asked(marker, extras)]
    return dict(sorted(versions.items()))


@cache
def own_digest() -> str:
    """Our code and the versions of the libraries that make the output: the same as long as a
    process lives.
    """
    digest = hashlib.sha256()
    _add_files(digest, Path(builder.__file__).resolve().parent)
    for name, version in library_versions().items():
        digest.update(f"{name} {version}\n".encode())
    return digest.hexdigest()


def code_digest(*templates: Path) -> str:
    """One digest of our code, the folders of templates in use, and the versions of the libraries
    that make the output.

    The templates are read again each time: a preview publishes many times in one process while they
    are edited.
    """
    digest = hashlib.sha256(own_digest().encode())
    for folder in templates:
        _add_files(digest, folder)
    return digest.hexdigest()


def row(path: str, lies: os.stat_result) -> str:
    """How a file lies, as text: two that lie so are one that nobody touched. Another's copy lies
    otherwise.
    """
    return (
        f"{lies.st_size} {lies.st_mtime_ns} {lies.st_ctime_ns} {lies.st_ino} {lies.st_dev} {path}"
    )


@dataclass(frozen=True, eq=False)
class Lying:
    """The files of a site as they lay when a publish began: their sizes, by address.

    `rows` say how they lay when the last publish had written them, as far as that is believed.
    """

    site: Path
    sizes: Mapping[str, int]
    rows: frozenset[str] = frozenset()

    def holds(self, path: str, output: Output, *, careful: bool) -> bool:
        """Whether a file lies there as it was written: nobody touched it, or its bytes (always,
        where `careful`).
        """
        if self.sizes.get(path) != output.size:
            return False
        try:
            if not careful and row(path, os.lstat(f"{self.site}/{path}")) in self.rows:
                return True
            return sha(read_plain(self.site / path)) == output.sha
        except OSError:
            return False

    def holds_all(self, record: JobRecord, *, careful: bool) -> bool:
        """Whether all outputs of a job lie there as they were written."""
        return all(
            self.holds(path, output, careful=careful) for path, output in record.outputs.items()
        )
