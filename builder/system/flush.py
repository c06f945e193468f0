"""What was written reaches the disk."""

import ctypes
import os
from pathlib import Path


def flush_folder(folder: Path) -> None:
    """The names in a folder reach the disk. Windows opens no folder, and writes them by itself."""
    try:
        handle = os.open(folder, os.O_RDONLY)
    except PermissionError:
        if hasattr(os, "O_DIRECTORY"):  # a system that opens folders refuses this one
            raise
        return
    _flush(handle)


def flush_file(file: Path) -> None:
    """The bytes of a file that was written and closed reach the disk."""
    _flush(os.open(file, os.O_RDWR if os.name == "nt" else os.O_RDONLY))


def _flush(handle: int) -> None:
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def flush_all(folder: Path) -> bool:
    """All that is written on a folder's file system reaches the disk; False where that cannot be
    asked for.
    """
    try:
        flush = ctypes.CDLL(None, use_errno=True).syncfs
        handle = os.open(folder, os.O_RDONLY)
    except (OSError, AttributeError, TypeError):
        return False
    try:
        return int(flush(handle)) == 0
    finally:
        os.close(handle)
