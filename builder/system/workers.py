"""Worker processes: they hear no interrupt from the keyboard, and end with their parent."""

import ctypes
import os
import signal
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

_posix: Any = signal  # of which Windows has a part
_SYSTEM: str = sys.platform
_PR_SET_PDEATHSIG = 1  # prctl(2) of Linux


def deaf() -> None:
    """This process hears no interrupt from the keyboard from now on: its parent does."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)


def end_with(parent: int) -> None:
    """This process ends when its parent does, where the system can say so. Elsewhere it ends when
    the pipe that brings its work is closed.
    """
    if _SYSTEM != "linux":
        return
    ctypes.CDLL(None).prctl(_PR_SET_PDEATHSIG, _posix.SIGKILL)
    if os.getppid() != parent:  # it died before we asked
        os._exit(1)


@contextmanager
def unheard() -> Iterator[None]:
    """A process that starts inside is not interrupted from the keyboard, not even while it starts:
    its parent is.
    """
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = _posix.pthread_sigmask(_posix.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        _posix.pthread_sigmask(_posix.SIG_SETMASK, before)
