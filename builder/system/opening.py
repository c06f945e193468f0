"""Files opened so that no link is followed and no pipe or device is waited for.

Windows knows none of these flags: a link is looked for before it is opened there, and opening a
pipe or a device by the path of a file does not wait.
"""

import errno
import os

from builder.system.links import leads_elsewhere

_NO_LINK = getattr(os, "O_NOFOLLOW", 0)
_OURS = getattr(os, "O_CLOEXEC", 0) | getattr(os, "O_NOINHERIT", 0) | getattr(os, "O_BINARY", 0)
_NOT_WAITED = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_NOCTTY", 0)


def open_to_read(path: str | os.PathLike[str], *, links: bool = False) -> int:
    """A handle to read from; with `links` a link is followed. OSError (ELOOP) for a link else."""
    if links:
        return os.open(path, os.O_RDONLY | _NOT_WAITED | _OURS)
    _refuse_link(path)
    return os.open(path, os.O_RDONLY | _NO_LINK | _NOT_WAITED | _OURS)


def open_new(path: str | os.PathLike[str], mode: int = 0o666) -> int:
    """A handle to write to, where nothing is, not even a link. FileExistsError else."""
    return os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL | _NO_LINK | _OURS, mode)


def open_to_lock(path: str | os.PathLike[str]) -> int:
    """A handle of a file that is made if it is not there. OSError (ELOOP) for a link."""
    _refuse_link(path)
    return os.open(path, os.O_CREAT | os.O_RDWR | _NO_LINK | _NOT_WAITED | _OURS, 0o644)


def _refuse_link(path: str | os.PathLike[str]) -> None:
    """Where the system itself cannot: between this look and the opening a link could be put."""
    if not _NO_LINK and leads_elsewhere(path):
        raise OSError(errno.ELOOP, os.strerror(errno.ELOOP))
