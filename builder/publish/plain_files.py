"""Files beside the site are read and written so that no link is followed: a workspace may come from
a stranger.
"""

import errno
import os
import stat
import sys
from pathlib import Path

from builder.system.opening import open_new, open_to_read


def read_plain(path: Path, most: int = sys.maxsize) -> bytes:
    """The bytes of a plain file.

    OSError for a link, for a pipe or device, which are never waited for, and for a file of more
    bytes than `most`.
    """
    handle = open_to_read(path)
    with os.fdopen(handle, "rb") as file:
        lies = os.fstat(file.fileno())
        if not stat.S_ISREG(lies.st_mode):
            raise OSError(errno.EINVAL, "It is no plain file")
        if lies.st_size > most:
            raise OSError(errno.EFBIG, "It is too large")
        content = file.read(min(most, lies.st_size) + 1)  # it may grow meanwhile
        if len(content) > most:
            raise OSError(errno.EFBIG, "It is too large")
        return content


def read_at_most(path: Path, most: int) -> bytes | None:
    """The bytes of a plain file that holds no more than `most`; None for a link, a pipe, a larger
    one, or none.
    """
    try:
        return read_plain(path, most)
    except (OSError, ValueError):
        return None


def write_new_file(path: str, content: bytes, *, durable: bool = False) -> None:
    """A file where nothing is, not even a link; `durable` waits until the disk has it."""
    with os.fdopen(open_new(path), "wb") as file:
        file.write(content)
        if durable:
            file.flush()
            os.fsync(file.fileno())


def replace_plain(path: Path, content: bytes, *, durable: bool = False) -> None:
    """The whole file in the place of what is there: a link is replaced, what it leads to is left
    alone.
    """
    aside = f"{path}.{os.urandom(8).hex()}"
    try:
        write_new_file(aside, content, durable=durable)
        os.replace(aside, path)  # noqa: PTH105 - text, as the file aside
    except BaseException:
        if os.path.lexists(aside):
            os.unlink(aside)  # noqa: PTH108 - as above
        raise


def is_address(path: str) -> bool:
    """Whether a path may be written below the site, on any system that the site is copied to."""
    steps = path.split("/")
    return all(map(_is_step, steps))


def _is_step(step: str) -> bool:
    if step in ("", ".", "..") or step[-1] in ". " or not step.isprintable():
        return False
    return not set(step) & set('\\:*?"<>|') and len(os.fsencode(step)) <= 255
