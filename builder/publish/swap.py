"""The new site is made aside and swapped in: `site/` is the old one or the new one at every instant."""

import ctypes
import errno
import fcntl
import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

_AT_FDCWD = -100
_RENAME_EXCHANGE = 2
STAGE = ".site-next"
OLD = ".site-old"
LOCK = ".site-lock"


class PublishError(Exception):
    """What keeps the site from being written, in one sentence, with how to mend it."""

    def __init__(self, message: str, hint: str = "") -> None:
        self.message, self.hint = message, hint
        super().__init__(message)


def explain(error: OSError, doing: str) -> PublishError:
    """An operating system's error as a sentence."""
    hints = {
        errno.ENOSPC: "Make room on the disk and publish again; the old site is untouched.",
        errno.EDQUOT: "Make room in your quota and publish again; the old site is untouched.",
        errno.EROFS: "The disk is read-only; publish from a copy of the workspace.",
        errno.EACCES: "Check who owns the folder `site`; the old site is untouched.",
        errno.EPERM: "Check who owns the folder `site`; the old site is untouched.",
    }
    return PublishError(
        f"{doing} failed: {error.strerror or error}.", hints.get(error.errno or 0, "The old site is untouched.")
    )


@contextmanager
def locked(workspace: Path) -> Iterator[None]:
    """Holds the workspace's lock; a second publish is refused, not mixed in. The lock dies with its process."""
    try:
        handle = os.open(workspace / LOCK, os.O_CREAT | os.O_RDWR, 0o644)
    except OSError as error:
        raise explain(error, "Making the lock file") from error
    try:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError as error:
            raise PublishError(
                "Another publish of this workspace is running.", "Wait for it, then publish again."
            ) from error
        yield
    finally:
        os.close(handle)


def clean_leftovers(workspace: Path) -> None:
    """Removes what a killed publish left; heals a site that was moved aside and not put back."""
    site, old = workspace / "site", workspace / OLD
    if site.is_symlink():
        raise PublishError("`site` is a link.", "Make it a folder; copy it on to where it is served from.")
    if not site.exists() and old.is_dir() and not old.is_symlink():
        old.rename(site)
    for name in (STAGE, OLD):
        shutil.rmtree(workspace / name, ignore_errors=True)


def files_of(site: Path) -> tuple[dict[str, int], tuple[str, ...]]:
    """The size of every file in the site but dot-files, by address; and links of any name, for they may lead outside."""
    sizes: dict[str, int] = {}
    links = []
    waiting = [(os.fspath(site), "")] if site.is_dir() else []
    while waiting:
        folder, path = waiting.pop()
        try:
            for entry in os.scandir(folder):
                here = path + entry.name
                if entry.is_symlink():
                    links.append(here)
                elif entry.name.startswith("."):
                    continue
                elif entry.is_dir():
                    waiting.append((entry.path, f"{here}/"))
                else:
                    sizes[here] = entry.stat().st_size
        except OSError as error:
            raise explain(error, "Reading the site") from error
    return sizes, tuple(sorted(links))


def _exchange(a: Path, b: Path) -> bool:
    """Swaps two folders in one step of the kernel; False where that is not to be had."""
    try:
        rename = ctypes.CDLL(None, use_errno=True).renameat2
    except (OSError, AttributeError):
        return False
    result: int = rename(_AT_FDCWD, os.fsencode(a), _AT_FDCWD, os.fsencode(b), _RENAME_EXCHANGE)
    if result == 0:
        return True
    if ctypes.get_errno() in (errno.EINVAL, errno.ENOSYS, errno.ENOTSUP, errno.EXDEV):
        return False
    raise OSError(ctypes.get_errno(), os.strerror(ctypes.get_errno()))


def swap(workspace: Path) -> None:
    """Puts the stage in the place of the site and removes the old one, in one step where the system can.

    Elsewhere in two renames; a kill between them is healed by the next publish. OSError: the old site is whole.
    """
    site, stage, old = workspace / "site", workspace / STAGE, workspace / OLD
    if _exchange(stage, site):
        shutil.rmtree(stage, ignore_errors=True)
        return
    site.rename(old)
    try:
        stage.rename(site)
    except OSError:
        old.rename(site)
        raise
    shutil.rmtree(old, ignore_errors=True)
