"""Two folders change their names in one step, where the system can."""

import ctypes
import errno
import os
import sys
from pathlib import Path

_SYSTEM: str = sys.platform
_AT_FDCWD = -100
_RENAME_EXCHANGE = 2  # renameat2(2) of Linux
_RENAME_SWAP = 2  # renamex_np(2) of macOS
_NOT_HERE = (errno.EINVAL, errno.ENOSYS, errno.ENOTSUP, errno.EXDEV)


def exchange(a: Path, b: Path) -> bool:
    """Swaps two folders in one step of the system; False where that is not to be had."""
    try:
        library = ctypes.CDLL(None, use_errno=True)
        result = _call(library, os.fsencode(a), os.fsencode(b))
    except (OSError, AttributeError, TypeError):  # TypeError: Windows has no library of no name
        return False
    if result == 0:
        return True
    number = ctypes.get_errno()
    if number in _NOT_HERE:
        return False
    raise OSError(number, os.strerror(number))


def _call(library: ctypes.CDLL, a: bytes, b: bytes) -> int:
    """0 if it was done. AttributeError where the system has no such call."""
    if _SYSTEM == "darwin":
        return int(library.renamex_np(a, b, _RENAME_SWAP))
    return int(library.renameat2(_AT_FDCWD, a, _AT_FDCWD, b, _RENAME_EXCHANGE))
