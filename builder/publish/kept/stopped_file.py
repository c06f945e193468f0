"""Which jobs ran into their limits, kept beside the site, so that the next publish does not wait
for them again.

A job is one of them while all that it depends on is as it was, and the limits too: a clean publish
would stop it as well. `--everything` tries it again, and so does a publish after the file was
deleted.

What it saves: for each job that was stopped, all of its time (120 s, unless the site says another).
"""

import json
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from builder.publish.kept.shape import fits
from builder.publish.kept.state_file import keep_state, read_state

STOPPED = ".site-stopped"
_KINDS = ("time", "memory")

StoppedJobs = Mapping[
    str, tuple[str, str]
]  # by name of job: the digest of all that it depends on, and what it ran out of


def read_stopped(workspace: Path) -> StoppedJobs:
    """What is kept; nothing where there is nothing, or another account kept it, or it cannot be
    understood.
    """
    body = read_state(workspace, STOPPED)
    if body is None:
        return {}
    try:
        kept = json.loads(body)
    except (ValueError, RecursionError):
        return {}
    if not fits(kept, {...: (str, str)}) or any(kind not in _KINDS for _, kind in kept.values()):
        return {}
    return {name: (digest, kind) for name, (digest, kind) in kept.items()}


def keep_stopped(workspace: Path, now: StoppedJobs, before: StoppedJobs) -> None:
    """Keeps it for the next publish, if it is other than `before`; no file where there is nothing
    to keep.
    """
    if now == before:
        return
    with suppress(OSError):  # it only saves time
        if not now:
            (workspace / STOPPED).unlink(missing_ok=True)
            return
        keep_state(workspace, STOPPED, json.dumps(dict(sorted(now.items()))).encode())
