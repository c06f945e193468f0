"""An exception raised in code that runs, from outside of it: by a signal, or by the interpreter."""

import ctypes
import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType
from typing import Any

_posix: Any = signal  # of which Windows has a part
_AGAIN = 1.0  # s: once more each second, should it be lost in a destructor
HAS_ALARM = hasattr(signal, "setitimer")


class _Late(BaseException):
    """What the interpreter raises where a system has no alarm; nobody sees it outside of here."""


def raise_in(thread: int, kind: type[BaseException]) -> None:
    """Raises an exception in a thread as soon as it runs a line of Python again."""
    ctypes.pythonapi.PyThreadState_SetAsyncExc(ctypes.c_ulong(thread), ctypes.py_object(kind))


@contextmanager
def alarm(seconds: float, error: BaseException) -> Iterator[None]:
    """Raises `error` in what runs inside, in the main thread, after so many seconds; in any other
    thread nothing is raised.
    """
    if threading.current_thread() is not threading.main_thread():
        yield
    elif HAS_ALARM:
        with _by_signal(seconds, error):
            yield
    else:
        with _by_interpreter(seconds, error):
            yield


@contextmanager
def _by_signal(seconds: float, error: BaseException) -> Iterator[None]:
    def stop(number: int, frame: FrameType | None) -> None:
        raise error

    before = _posix.signal(_posix.SIGALRM, stop)
    _posix.setitimer(_posix.ITIMER_REAL, seconds, _AGAIN)
    try:
        yield
    finally:
        _posix.setitimer(_posix.ITIMER_REAL, 0)
        _posix.signal(_posix.SIGALRM, before)


@contextmanager
def _by_interpreter(seconds: float, error: BaseException) -> Iterator[None]:
    """Windows: a thread that waits. What waits inside the system is stopped when it comes back."""
    ended = threading.Event()
    here = threading.get_ident()

    def wait() -> None:
        left = seconds
        while not ended.wait(left):
            raise_in(here, _Late)
            left = _AGAIN

    waiting = threading.Thread(target=wait, name="time limit", daemon=True)
    waiting.start()
    try:
        yield
    except _Late:
        raise error from None
    finally:
        ended.set()
        waiting.join()
