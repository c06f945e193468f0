"""Files that a publish keeps beside the site for the next one. They save time, and are believed only where they are ours.

Each is sealed with the key of this account (`own_key.py`, HMAC of RFC 2104 over SHA-256). What came with somebody's
folder was sealed with another key or none, and is not so much as parsed. Any doubt counts as no file.
"""

import hashlib
import hmac
import os
import stat
from contextlib import suppress
from pathlib import Path

from builder.publish.own_key import own_key

_FORM = 1
_MOST = 256 * 2**20  # bytes; 5,000 builds need a fifth of it
_HEAD = b"benchleaf %d %s\n"
_HEAD_LENGTH = len(_HEAD % (_FORM, b"0" * 64))


def read_plain_file(path: Path, most: int) -> bytes | None:
    """The bytes of a plain file that holds no more than `most`; None for a link, a pipe, a larger one, or none."""
    try:
        handle = os.open(path, os.O_RDONLY | os.O_NOFOLLOW | os.O_NONBLOCK)
    except (OSError, ValueError):
        return None
    try:
        lies = os.fstat(handle)
        if not stat.S_ISREG(lies.st_mode) or lies.st_size > most:
            return None
        with os.fdopen(handle, "rb", closefd=False) as file:
            content = file.read(most + 1)
    except OSError:
        return None
    finally:
        os.close(handle)
    return content if len(content) <= most else None


def _seal(key: bytes, name: str, body: bytes) -> bytes:
    """The seal says which file it is of, so that one cannot be put in the place of another."""
    made = hmac.new(key, b"benchleaf %d %s\0" % (_FORM, name.encode()), hashlib.sha256)
    made.update(body)
    return made.hexdigest().encode()


def read_state(workspace: Path, name: str) -> bytes | None:
    """What was kept in a file beside the site; None unless this account kept it, and exactly so."""
    content = read_plain_file(workspace / name, _MOST)
    if content is None or len(content) < _HEAD_LENGTH:
        return None
    key = own_key(workspace)
    if key is None:
        return None
    head, body = content[:_HEAD_LENGTH], content[_HEAD_LENGTH:]
    return body if hmac.compare_digest(head, _HEAD % (_FORM, _seal(key, name, body))) else None


def keep_state(workspace: Path, name: str, body: bytes, *, durable: bool = False) -> bool:
    """Keeps it for the next publish. OSError where the disk refuses.

    False where this account has no key of its own, or a folder has that name. What lies under the name of the new file
    is taken away first: it may be a link that leads elsewhere.
    """
    target, new = workspace / name, workspace / f"{name}.new"
    if any(path.is_dir() and not path.is_symlink() for path in (target, new)):
        return False
    key = own_key(workspace, make=True)
    if key is None:
        return False
    with suppress(FileNotFoundError):
        new.unlink()
    handle = os.open(new, os.O_WRONLY | os.O_CREAT | os.O_EXCL | os.O_NOFOLLOW, 0o644)
    with os.fdopen(handle, "wb") as file:
        file.write(_HEAD % (_FORM, _seal(key, name, body)) + body)
        if durable:
            file.flush()
            os.fsync(handle)
    new.replace(target)
    return True
