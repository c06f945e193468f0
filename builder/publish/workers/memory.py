"""A worker may take so much memory and no more: the system refuses more, or, where it sets no
limit, it is watched.
"""

import os
import resource
import signal
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from types import FrameType

_WATCH = "memory watch"
_LOOK_AGAIN = 0.1  # s
_GRACE = 5  # s, from when a job is told that it takes too much until its process ends


def limit_memory(megabytes: int) -> None:
    """Sets the limit for this process; MemoryError is then raised in what would take more."""
    most = megabytes * 2**20
    try:
        hard = resource.getrlimit(resource.RLIMIT_AS)[1]
        resource.setrlimit(
            resource.RLIMIT_AS, (most if hard == resource.RLIM_INFINITY else min(most, hard), hard)
        )
    except (ValueError, OSError):  # some systems know the limit and refuse it
        signal.signal(signal.SIGUSR1, _stop)
        threading.Thread(target=_watch, args=(most,), name=_WATCH, daemon=True).start()


@contextmanager
def memory_bounded(megabytes: int) -> Iterator[None]:
    """What runs inside may take so much more than this process holds now (0: as much as there is).

    Where the system refuses the limit nothing is limited: this process has other work to do than to
    be ended.
    """
    soft, hard = resource.getrlimit(resource.RLIMIT_AS)
    most = _mapped() + megabytes * 2**20
    limits = [most, *(limit for limit in (soft, hard) if limit != resource.RLIM_INFINITY)]
    try:
        if megabytes:
            resource.setrlimit(resource.RLIMIT_AS, (min(limits), hard))
    except (ValueError, OSError):
        pass  # some systems know the limit and refuse it
    try:
        yield
    finally:
        with suppress(ValueError, OSError):
            resource.setrlimit(resource.RLIMIT_AS, (soft, hard))


def _mapped() -> int:
    """Bytes of address space that this process has now; the most that it ever held where the system
    says no more.
    """
    return _of_statm(0)


def is_watched() -> bool:
    """Whether this process is watched because the system refused the limit."""
    return any(thread.name == _WATCH for thread in threading.enumerate())


def resident() -> int:
    """Bytes of memory that this process holds now; the most that it ever held where the system says
    no more.
    """
    return _of_statm(1)


def _of_statm(field: int) -> int:
    """Bytes in a field of `/proc/self/statm` (proc(5): 0 is all that is mapped, 1 what is held);
    without that file the most that the process ever held.
    """
    try:
        pages = int(Path("/proc/self/statm").read_text("ascii").split()[field])
        return pages * os.sysconf("SC_PAGE_SIZE")
    except (OSError, ValueError, IndexError):
        peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        return peak if sys.platform == "darwin" else peak * 1024


def _stop(number: int, frame: FrameType | None) -> None:
    raise MemoryError


def _watch(most: int) -> None:
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
            signal.pthread_kill(threading.main_thread().ident or 0, signal.SIGUSR1)
        elif time.monotonic() - since > _GRACE:
            os._exit(1)
