"""The new site is made aside and swapped in: `site/` is the old one or the new one at every
instant.
"""

import errno
import os
import re
import shutil
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from builder.publish.by_entry import exchange_entries
from builder.system.exchange import exchange
from builder.system.links import leads_elsewhere
from builder.system.locks import take_lock
from builder.system.opening import open_to_lock

STAGE = ".site-next"  # and an ending that nobody guesses, so that nothing can lie there before
OLD = ".site-old"
LOCK = ".site-lock"
_LEFT = re.compile(
    rf"(?:{re.escape(STAGE)}|{re.escape(OLD)})(?:-[0-9a-f]{{16}})?"
)  # before, they had no ending
_LEFT_ASIDE = re.compile(r"\.site-(?:known|seen|seal|stopped)\.[0-9a-f]{16}")


class PublishError(Exception):
    """What keeps the site from being written, in one sentence, with how to mend it."""

    def __init__(self, message: str, hint: str = "") -> None:
        self.message, self.hint = message, hint
        super().__init__(message)


def explain_error(error: OSError, doing: str) -> PublishError:
    """An operating system's error as a sentence."""
    hints = {
        errno.ENOSPC: "Make room on the disk and publish again; the old site is untouched.",
        errno.EDQUOT: "Make room in your quota and publish again; the old site is untouched.",
        errno.EROFS: "The disk is read-only; publish from a copy of the workspace.",
        errno.EACCES: "Check who owns the folder `site`; the old site is untouched.",
        errno.EPERM: "Check who owns the folder `site`; the old site is untouched.",
    }
    why = error.strerror or (
        "a file could not be copied" if isinstance(error, shutil.Error) else str(error)
    )
    return PublishError(
        f"{doing} failed: {why}.", hints.get(error.errno or 0, "The old site is untouched.")
    )


@contextmanager
def locked(workspace: Path) -> Iterator[None]:
    """Holds the workspace's lock; a second publish is refused, not mixed in. The lock dies with its
    process.
    """
    try:
        handle = open_to_lock(workspace / LOCK)
    except OSError as error:
        if error.errno == errno.ELOOP:
            raise PublishError(
                f"`{LOCK}` is a link.", "Delete it; publishing does not need it."
            ) from error
        raise explain_error(error, "Making the lock file") from error
    try:
        if not stat.S_ISREG(os.fstat(handle).st_mode):
            raise PublishError(
                f"`{LOCK}` is no plain file.", "Delete it; publishing does not need it."
            )
        try:
            take_lock(handle)
        except OSError as error:
            raise PublishError(
                "Another publish of this workspace is running.", "Wait for it, then publish again."
            ) from error
        yield
    finally:
        os.close(handle)


def leftovers(workspace: Path) -> tuple[str, ...]:
    """Names of the folders that a killed publish left. A link of such a name is not ours: it is
    never followed.
    """
    try:
        with os.scandir(workspace) as inside:
            found = [
                e.name
                for e in inside
                if _LEFT.fullmatch(e.name) and e.is_dir(follow_symlinks=False)
            ]
    except OSError:
        return ()
    return tuple(sorted(found))


def clean_leftovers(workspace: Path) -> None:
    """Removes what a killed publish left; heals a site that was moved aside and not put back."""
    site = workspace / "site"
    if leads_elsewhere(site):
        raise PublishError(
            "`site` is a link.", "Make it a folder; copy it on to where it is served from."
        )
    if os.path.lexists(site) and not site.is_dir():
        raise PublishError("`site` is no folder.", "Move it away; the site is published there.")
    left = leftovers(workspace)
    moved = [workspace / name for name in left if name.startswith(OLD)]
    if moved and not site.exists():
        newest = max(moved, key=lambda folder: (folder.lstat().st_mtime_ns, folder.name))
        try:
            newest.rename(site)
        except OSError as error:
            raise explain_error(error, "Putting the old site back") from error
    for name in left:
        shutil.rmtree(workspace / name, ignore_errors=True)
    for entry in workspace.iterdir():
        if _LEFT_ASIDE.fullmatch(entry.name) and not entry.is_dir():
            entry.unlink(missing_ok=True)


def files_of(site: Path) -> tuple[dict[str, int], tuple[str, ...]]:
    """The size of every file in the site but dot-files, by address; and links of any name, pipes
    and the like.

    Links may lead outside, and a pipe is waited for: neither is ever ours.
    """
    sizes: dict[str, int] = {}
    odd = []
    waiting = [(os.fspath(site), "")] if site.is_dir() and not leads_elsewhere(site) else []
    while waiting:
        folder, path = waiting.pop()
        try:
            for entry in os.scandir(folder):
                here = path + entry.name
                if leads_elsewhere(entry) or not (entry.is_dir() or entry.is_file()):
                    odd.append(here)
                elif entry.name.startswith("."):
                    continue
                elif entry.is_dir():
                    waiting.append((entry.path, f"{here}/"))
                else:
                    sizes[here] = entry.stat().st_size
        except OSError as error:
            raise explain_error(error, "Reading the site") from error
    return sizes, tuple(sorted(odd))


def swap(workspace: Path, stage: Path) -> tuple[str, ...]:
    """Puts the stage in the place of the site and removes the old one, in one step where the system
    can.

    Elsewhere in two renames; a kill between them is healed by the next publish. OSError: the old
    site is whole. Where a program holds files open that the system then does not move, all others
    are exchanged: the addresses of those that are held.
    """
    site, old = workspace / "site", workspace / stage.name.replace(STAGE, OLD)
    if exchange(stage, site):
        shutil.rmtree(stage, ignore_errors=True)
        return ()
    try:
        site.rename(old)
    except PermissionError:
        held = exchange_entries(stage, site, old)
        for folder in (stage, old):
            shutil.rmtree(folder, ignore_errors=True)
        return held
    try:
        stage.rename(site)
    except OSError:
        old.rename(site)
        raise
    shutil.rmtree(old, ignore_errors=True)
    return ()
