"""Files that a publish keeps beside the site for the next one. They save time, and are believed
only where they are ours.

Each is sealed with the key of this account (`own_key.py`, HMAC of RFC 2104 over SHA-256). What came
with somebody's folder was sealed with another key or none, and is not so much as parsed. Any doubt
counts as no file.
"""

import hashlib
import hmac
from pathlib import Path

from builder.publish.kept.own_key import own_key
from builder.publish.plain_files import read_at_most, replace_plain
from builder.system.links import leads_elsewhere

_FORM = 1
_MOST = 256 * 2**20  # bytes; 5,000 builds need a fifth of it
_HEAD = b"benchleaf %d %s\n"
_HEAD_LENGTH = len(_HEAD % (_FORM, b"0" * 64))


def _seal(key: bytes, name: str, body: bytes) -> bytes:
    """The seal says which file it is of, so that one cannot be put in the place of another."""
    made = hmac.new(key, b"benchleaf %d %s\0" % (_FORM, name.encode()), hashlib.sha256)
    made.update(body)
    return made.hexdigest().encode()


def read_state(workspace: Path, name: str) -> bytes | None:
    """What was kept in a file beside the site; None unless this account kept it, and exactly so."""
    content = read_at_most(workspace / name, _MOST)
    if content is None or len(content) < _HEAD_LENGTH:
        return None
    key = own_key(workspace)
    if key is None:
        return None
    head, body = content[:_HEAD_LENGTH], content[_HEAD_LENGTH:]
    return body if hmac.compare_digest(head, _HEAD % (_FORM, _seal(key, name, body))) else None


def keep_state(workspace: Path, name: str, body: bytes, *, durable: bool = False) -> bool:
    """Keeps it for the next publish. OSError where the disk refuses.

    False where this account has no key of its own, or a folder has that name.
    """
    target = workspace / name
    if target.is_dir() and not leads_elsewhere(target):
        return False
    key = own_key(workspace, make=True)
    if key is None:
        return False
    replace_plain(target, _HEAD % (_FORM, _seal(key, name, body)) + body, durable=durable)
    return True
