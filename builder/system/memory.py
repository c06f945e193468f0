"""A process may take so much memory and no more: the system refuses more, or, where it sets no
limit, the process is watched.
"""

import ctypes
import os
import signal
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from types import FrameType
from typing import Any

from builder.system.interrupt import raise_in
from builder.system.optional import optional

resource = optional("resource")  # Windows sets no such limits

_sysconf: Any = getattr(os, "sysconf", None)
_posix: Any = signal  # of which Windows has a part
_SYSTEM: str = sys.platform
_WATCH = "memory watch"
_LOOK_AGAIN = 0.1  # s
_GRACE = 5  # s, from when a job is told that it takes too much until its process ends
_HAS_SIGNAL = hasattr(signal, "pthread_kill") and hasattr(signal, "SIGUSR1")


def limit_memory(megabytes: int) -> None:
    """Sets the limit for this process; MemoryError is then raised in what would take more."""
    most = megabytes * 2**20
    if not _limited(most):
        _watched(most)


def _limited(most: int) -> bool:
    """Whether the system took the limit; some know it and refuse it."""
    if resource is None:
        return False
    try:
        hard = resource.getrlimit(resource.RLIMIT_AS)[1]
        soft = most if hard == resource.RLIM_INFINITY else min(most, hard)
        resource.setrlimit(resource.RLIMIT_AS, (soft, hard))
    except (ValueError, OSError):
        return False
    return True


def _watched(most: int) -> None:
    if _HAS_SIGNAL:
        _posix.signal(_posix.SIGUSR1, _stop)
    main = threading.main_thread().ident or 0
    threading.Thread(target=_watch, args=(most, main), name=_WATCH, daemon=True).start()


@contextmanager
def memory_bounded(megabytes: int) -> Iterator[None]:
    """What runs inside may take so much more than this process holds now (0: as much as there is).

    Where the system refuses the limit nothing is limited: this process has other work to do than to
    be ended.
    """
    if resource is None or not megabytes:
        yield
        return
    soft, hard = resource.getrlimit(resource.RLIMIT_AS)
    most = mapped() + megabytes * 2**20
    limits = [most, *(limit for limit in (soft, hard) if limit != resource.RLIM_INFINITY)]
    with suppress(ValueError, OSError):  # some systems know the limit and refuse it
        resource.setrlimit(resource.RLIMIT_AS, (min(limits), hard))
    try:
        yield
    finally:
        with suppress(ValueError, OSError):
            resource.setrlimit(resource.RLIMIT_AS, (soft, hard))


def is_watched() -> bool:
    """Whether this process is watched because the system sets no limit."""
    return any(thread.name == _WATCH for thread in threading.enumerate())


def mapped() -> int:
    """Bytes of address space that this process has now; what it holds where the system says no
    more.
    """
    pages = _pages(0)
    return resident() if pages is None else pages


def resident() -> int:
    """Bytes of memory that this process holds now; the most that it ever held where the system says
    no more; 0 where it says nothing.
    """
    pages = _pages(1)
    if pages is not None:
        return pages
    if resource is not None:
        peak = int(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)
        return peak if _SYSTEM == "darwin" else peak * 1024
    return _working_set()


def _pages(column: int) -> int | None:
    """A column of the memory that Linux states for this process, in bytes (proc(5), statm)."""
    try:
        pages = int(Path("/proc/self/statm").read_text("ascii").split()[column])
        return pages * int(_sysconf("SC_PAGE_SIZE"))
    except (OSError, ValueError, IndexError, TypeError):
        return None


class _Counters(ctypes.Structure):
    """PROCESS_MEMORY_COUNTERS of Windows."""

    _fields_ = (
        ("cb", ctypes.c_uint32),
        ("faults", ctypes.c_uint32),
        ("peak_working_set", ctypes.c_size_t),
        ("working_set", ctypes.c_size_t),
        ("others", ctypes.c_size_t * 6),
    )


def _working_set() -> int:
    """What Windows says that this process holds (GetProcessMemoryInfo)."""
    windows = getattr(ctypes, "windll", None)
    if windows is None:
        return 0
    counters = _Counters()
    counters.cb = ctypes.sizeof(counters)
    process = ctypes.c_void_p(windows.kernel32.GetCurrentProcess())
    told = windows.psapi.GetProcessMemoryInfo(process, ctypes.byref(counters), counters.cb)
    return int(counters.working_set) if told else 0


def _stop(number: int, frame: FrameType | None) -> None:
    raise MemoryError


def _watch(most: int, main: int) -> None:
    """Interrupts the job of this process when it holds too much, and ends the process where that
    does not help.
    """
    since = 0.0
    while True:
        time.sleep(_LOOK_AGAIN)
        if resident() <= most:
            since = 0.0
        elif not since:
            since = time.monotonic()
            _tell(main)
        elif time.monotonic() - since > _GRACE:
            os._exit(1)


def _tell(main: int) -> None:
    if _HAS_SIGNAL:
        _posix.pthread_kill(main, _posix.SIGUSR1)
    else:
        raise_in(main, MemoryError)
