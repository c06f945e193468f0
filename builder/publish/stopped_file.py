"""Which jobs ran into their limits, kept beside the site, so that the next publish does not wait for them again.

A job is one of them while all that it depends on is as it was, and the limits too: a clean publish would stop it as
well. `--everything` tries it again, and so does a publish after the file was deleted.
"""

import json
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

STOPPED = ".site-stopped"
_VERSION = 1
_LARGEST = 2**23  # bytes of it that are read
_KINDS = ("time", "memory")

Stopped = Mapping[str, tuple[str, str]]  # by name of job: the digest of all that it depends on, and what it ran out of


def read_stopped(workspace: Path) -> Stopped:
    """What is kept; nothing where there is nothing, or what is there cannot be understood."""
    try:
        with (workspace / STOPPED).open("rb") as file:
            kept = json.loads(file.read(_LARGEST))
        if kept["version"] != _VERSION:
            return {}
        jobs = {name: (digest, kind) for name, (digest, kind) in kept["jobs"].items()}
    except (OSError, ValueError, LookupError, TypeError, AttributeError, RecursionError):
        return {}
    sound = all(isinstance(digest, str) and kind in _KINDS for digest, kind in jobs.values())
    return jobs if sound else {}


def keep_stopped(workspace: Path, now: Stopped, before: Stopped) -> None:
    """Keeps it for the next publish, if it is other than `before`; no file where there is nothing to keep."""
    if now == before:
        return
    new = workspace / f"{STOPPED}.new"
    with suppress(OSError):  # it only saves time
        if not now:
            (workspace / STOPPED).unlink(missing_ok=True)
            return
        new.write_text(json.dumps({"version": _VERSION, "jobs": dict(sorted(now.items()))}), "utf-8")
        new.replace(workspace / STOPPED)
