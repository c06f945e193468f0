"""One process at a time: a lock on a file that dies with whoever holds it."""

import os

from builder.system.optional import optional

fcntl = optional("fcntl")
msvcrt = optional("msvcrt")  # Windows


def take_lock(handle: int) -> None:
    """Takes the lock of an open file until it is closed. OSError where another holds it."""
    if fcntl is not None:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    elif msvcrt is not None:
        os.lseek(handle, 0, os.SEEK_SET)
        msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
