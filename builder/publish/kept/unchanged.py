"""Whether a publish has anything to do, judged before anything slow is imported.

At the end of a publish a small file beside the site keeps one digest of how every file lay that the
publish depends on (size, times of change of content and of entry to the nanosecond, inode, device):
sources, templates, our code, the folders that libraries are in, and the site itself. It is sealed,
so that nobody else's is believed. While all of them lie as they did, the next publish would make
the same and says the same. A file so young that its times could hide another change is kept with
the digest of its bytes instead, as version control does, if a publish reads it at all: a recording
beside a build is never opened. What is no plain file or folder (a link, say) is never judged here.

What it saves, at 50 builds where nothing changed: 0.3 s of processor time in place of 2.0 s.
"""

import errno
import hashlib
import json
import os
import stat
import sys
import time
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import Any

import builder
from builder.load.pictures import KINDS
from builder.options import PublishOptions
from builder.publish.kept.manifest import MANIFEST
from builder.publish.kept.shape import fits
from builder.publish.kept.state_file import keep_state, read_state
from builder.publish.swap import leftovers
from builder.system.links import leads_elsewhere
from builder.system.opening import open_to_read

SEEN = ".site-seen"
_YOUNG = 2_000_000_000  # ns; the coarsest file systems count in steps of 2 s
_FORM = 3  # of the file
_SHAPE = {
    "inputs": {"digest": str, "young": {...: str}},
    "site": str,
    "said": {
        "findings": [(str, str)],
        "notes": [str],
        "builds": int,
        "files": int,
        "status": int,
        "remarks": int,
    },
}
_PIECE = 2**20  # bytes that are read at once
_LONGEST = (
    2**26
)  # bytes; a young file that is longer is not looked through, and nothing is said of how all lies


@dataclass(frozen=True, slots=True)
class Look:
    """How all inputs of a publish lay at one instant: a digest over all, and the bytes' digests of
    the young.
    """

    digest: str
    young: dict[str, str]


@dataclass(frozen=True, slots=True)
class Said:
    """What a publish said: (severity, text) of each finding, lines on builds, how many builds and
    files, exit status.

    `remarks` counts those that are not said, as they are on builds that are as they were.
    """

    findings: tuple[tuple[str, str], ...]
    notes: tuple[str, ...]
    builds: int
    files: int
    status: int
    remarks: int = 0

    @property
    def again(self) -> "Said":
        """What is to be said where nothing has changed since."""
        rest = tuple(f for f in self.findings if f[0] != "remark")
        return replace(self, findings=rest, remarks=self.remarks + len(self.findings) - len(rest))


class _NotPlain(Exception):
    """Something lies there that is neither a plain file nor a plain folder."""


def _entries(root: str, *, site: bool = False) -> Iterator[tuple[str, os.stat_result]]:
    """Every file under a folder; of the site no dot-files but the manifest. OSError where the
    folder is not there.
    """
    folders = [root]
    while folders:
        with os.scandir(folders.pop()) as inside:
            for entry in inside:
                if entry.name == "__pycache__" or (
                    site and entry.name[0] == "." and entry.name != MANIFEST
                ):
                    continue
                if entry.is_dir(follow_symlinks=False):
                    folders.append(entry.path)
                elif entry.is_file(follow_symlinks=False):
                    yield entry.path, entry.stat(follow_symlinks=False)
                else:
                    raise _NotPlain


def _row(path: str, s: os.stat_result) -> str:
    return f"{path}\0{s.st_size}\0{s.st_mtime_ns}\0{s.st_ctime_ns}\0{s.st_ino}\0{s.st_dev}\n"


def _digest(rows: list[str]) -> str:
    return hashlib.sha256("".join(sorted(rows)).encode("utf-8", "surrogatepass")).hexdigest()


def _content(path: str) -> str:
    """The digest of a file's bytes, read in pieces; OSError for what is no plain file, or too long
    to be looked through.

    A pipe that took its place is not waited for.
    """
    handle = open_to_read(path, links=True)
    with open(handle, "rb") as file:  # noqa: PTH123 - pathlib would be imported for nothing else here
        about = os.fstat(handle)
        if not stat.S_ISREG(about.st_mode) or about.st_size > _LONGEST:
            raise OSError(errno.EFBIG, "not looked through")
        digest, left = hashlib.sha256(), about.st_size + 1
        while left > 0 and (piece := file.read(min(_PIECE, left))):
            digest.update(piece)
            left -= len(piece)
    return digest.hexdigest()


def _is_read(path: str, root: str, builds: str) -> bool:
    """Whether a publish reads a file: of the sources only their texts and pictures, whatever else
    lies beside them.
    """
    return root != builds or path.casefold().endswith((".yaml", *KINDS))


def look(options: PublishOptions) -> Look | None:
    """How the inputs lie now; None where that cannot be said."""
    package = Path(builder.__file__).resolve().parent
    given = options.workspace / "templates"
    roots = [
        package,
        *(f for f in (package.parent / "templates", given) if f.is_dir()),
        options.workspace / "builds",
    ]
    builds = str(options.workspace / "builds")
    libraries = [p for p in sys.path if p.endswith("-packages")]
    oldest = time.time_ns() - _YOUNG
    asked = f"{options.as_text()} pdf={options.pdf}"
    rows = [f"{_FORM}\0{sys.version}\0{asked}\0{options.workspace.resolve()}\n"]
    young: dict[str, str] = {}
    try:
        for root in roots:
            for path, about in _entries(str(root)):
                rows.append(_row(path, about))
                if max(about.st_mtime_ns, about.st_ctime_ns) > oldest and _is_read(
                    path, str(root), builds
                ):
                    young[path] = _content(path)
        rows += [_row(p, os.stat(p)) for p in libraries]  # noqa: PTH116 - as above
    except (OSError, _NotPlain):
        return None
    return Look(_digest(rows), young)


def _look_at_site(workspace: Path) -> str | None:
    site = workspace / "site"
    try:
        if leads_elsewhere(site):
            return None
        return _digest([_row(path, stat) for path, stat in _entries(str(site), site=True)])
    except (OSError, _NotPlain):
        return None


def _lie_so_still(now: Look | None, before: Look) -> bool:
    """Whether all inputs lie now as they did, and the young ones hold what they held."""
    if now is None or now.digest != before.digest:
        return False
    try:
        return all(_content(path) == digest for path, digest in before.young.items())
    except OSError:
        return False


def _said(kept: dict[str, Any]) -> Said:
    """What was said, from JSON, which has lists only."""
    findings = tuple((severity, text) for severity, text in kept["findings"])
    return Said(
        findings,
        tuple(kept["notes"]),
        kept["builds"],
        kept["files"],
        kept["status"],
        kept["remarks"],
    )


def remember(options: PublishOptions, before: Look | None, said: Said) -> None:
    """Keeps what a publish saw and said, if its inputs lie as they did `before` it read them."""
    if before is None or not _lie_so_still(look(options), before):
        return
    site = _look_at_site(options.workspace)
    content = json.dumps({"inputs": asdict(before), "site": site, "said": asdict(said.again)})
    with suppress(OSError):  # it only saves time
        keep_state(options.workspace, SEEN, content.encode())


def nothing_new(options: PublishOptions, now: Look | None) -> Said | None:
    """What the last publish said, if this one would make and say the same; None if it has to look
    closely.

    `now` is how the inputs lie, from `look`.
    """
    home = options.workspace
    if options.careful or options.everything or leftovers(home):
        return None
    body = read_state(home, SEEN)
    if body is None:
        return None
    try:
        kept = json.loads(body)
        if not fits(kept, _SHAPE) or not _lie_so_still(now, Look(**kept["inputs"])):
            return None
    except (OSError, ValueError, RecursionError):
        return None
    return _said(kept["said"]) if kept["site"] == _look_at_site(home) else None
