"""What was published from what: one JSON file beside the pages, written last."""

import json
import os
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any

from builder.frozen import value_class
from builder.publish.kept.shape import fits
from builder.publish.plain_files import read_at_most

MANIFEST = ".benchleaf.json"
_VERSION = 2
_MOST, _MOST_A_FILE = (
    16 * 2**20,
    8 * 2**10,
)  # bytes of a manifest, and for each file in the site; we write 300 for one
_RECORD = {"digest": str, "kept": bool, "plain": {...: Any}, "outputs": {...: (str, int)}}
_MANIFEST = {"version": int, "jobs": {...: _RECORD}}


@value_class(frozen=True, slots=True)
class Output:
    """One published file as it was written: enough to see a hand edit before it is linked on."""

    sha: str
    size: int


@value_class(frozen=True)
class JobRecord:
    """A job that was published: the digest of all that it depends on, its outputs, and what it said
    of itself.
    """

    digest: str
    outputs: Mapping[str, Output]
    plain: Mapping[str, Any] = field(default_factory=dict)
    kept: bool = False

    @cached_property
    def line(self) -> str:
        """The record as JSON on one line, the same for the same content."""
        record = {
            "digest": self.digest,
            "kept": self.kept,
            "plain": self.plain,
            "outputs": {p: [o.sha, o.size] for p, o in sorted(self.outputs.items())},
        }
        return json.dumps(record, ensure_ascii=False, sort_keys=True, separators=(",", ":"))


@dataclass(frozen=True)
class Manifest:
    """All jobs of a published site."""

    jobs: Mapping[str, JobRecord] = field(default_factory=dict)

    @cached_property
    def outputs(self) -> Mapping[str, Output]:
        """Every file that is ours, as it was written."""
        return {path: output for job in self.jobs.values() for path, output in job.outputs.items()}

    @property
    def files(self) -> frozenset[str]:
        """The addresses of every file that is ours."""
        return frozenset(self.outputs)


def as_bytes(manifest: Manifest) -> bytes:
    """The manifest as JSON bytes, the same for the same content: a line for each job, in the order
    of their names.
    """
    lines = (f"{_name(name)}{job.line}" for name, job in sorted(manifest.jobs.items()))
    joined = ",\n".join(lines)
    return f'{{"version":{_VERSION},"jobs":{{\n{joined}\n}}}}'.encode()


def _name(job: str) -> str:
    return json.dumps(job, ensure_ascii=False) + ":"


def manifest_bytes(site: Path, files: int = 0) -> bytes | None:
    """The manifest as it lies in a site of so many files: None where there is none, empty where it
    cannot be read.
    """
    path = site / MANIFEST
    if not os.path.lexists(path):
        return None
    return read_at_most(path, _MOST + files * _MOST_A_FILE) or b""


def is_below(path: str) -> bool:
    """Whether an address leads below the site; a manifest that came with a stranger's folder may
    say anything.
    """
    steps = path.split("/")
    return "\0" not in path and "" not in steps and not any(step.startswith(".") for step in steps)


def _record(job: Mapping[str, Any], line: str | None) -> JobRecord:
    """A record that was read, with the line that it stood on, so that it need not be written out
    again.
    """
    made = JobRecord(
        job["digest"], {p: Output(*o) for p, o in job["outputs"].items()}, job["plain"], job["kept"]
    )
    if line is not None:
        made.__dict__["line"] = line
    return made


def _lines(text: str, jobs: int) -> dict[str, str]:
    """The line of each job by its name as it is written; none where another hand wrote the file."""
    lines = [line.removesuffix(",").partition(":{") for line in text.split("\n")[1:-1]]
    return {name: "{" + rest for name, _, rest in lines} if len(lines) == jobs else {}


def read_manifest(content: bytes | None) -> Manifest | None:
    """A manifest that was written; None where it cannot be understood, and an empty one where there
    is none.

    One of an older version is read as well: its files are ours, and its digests are of other code.
    That it can be read says nothing of who wrote it.
    """
    if content is None:
        return Manifest()
    try:
        text = content.decode("utf-8")
        plain = json.loads(text)
    except (ValueError, RecursionError, MemoryError):
        return None
    if not fits(plain, _MANIFEST):
        return None
    lines = _lines(text, len(plain["jobs"])) if plain["version"] == _VERSION else {}
    made = Manifest({n: _record(job, lines.get(_name(n)[:-1])) for n, job in plain["jobs"].items()})
    return made if all(map(is_below, made.files)) else None
