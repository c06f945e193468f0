"""Runs jobs in worker processes through the standard Executor interface; in this process where that cannot be had.

Workers are spawned and die with their parent (Linux: PR_SET_PDEATHSIG), so that a killed publish leaves none behind.
"""

import ctypes
import os
import signal
import sys
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import Executor, Future, ProcessPoolExecutor, as_completed
from dataclasses import dataclass
from multiprocessing import get_context
from typing import Generic, TypeVar

T = TypeVar("T")
_PR_SET_PDEATHSIG = 1
_CONSTANT_EPOCH = "1700000000"  # a date that no output shows; WeasyPrint would otherwise read the clock


@dataclass(frozen=True)
class Done(Generic[T]):
    """A job that ended: its value, or what went wrong inside it."""

    name: str
    value: T | None
    error: BaseException | None


def _die_with_parent(parent: int) -> None:
    os.environ["SOURCE_DATE_EPOCH"] = _CONSTANT_EPOCH
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if sys.platform == "linux":
        ctypes.CDLL(None).prctl(_PR_SET_PDEATHSIG, signal.SIGKILL)
        if os.getppid() != parent:  # it died before we asked
            os._exit(1)


def _run(job: Callable[[], T]) -> T:
    return job()


def _here(jobs: Mapping[str, Callable[[], T]]) -> Iterator[Done[T]]:
    os.environ["SOURCE_DATE_EPOCH"] = _CONSTANT_EPOCH
    for name, job in jobs.items():
        try:
            yield Done(name, job(), None)
        except Exception as error:  # noqa: BLE001 - one broken job must not stop the others; it is reported
            yield Done(name, None, error)


def process_pool(workers: int) -> Executor | None:
    """A pool of spawned processes, or None where the machine has no room for one (no /dev/shm, say)."""
    try:
        return ProcessPoolExecutor(
            workers, mp_context=get_context("spawn"), initializer=_die_with_parent, initargs=(os.getpid(),)
        )
    except (OSError, ImportError, NotImplementedError):
        return None


def run(jobs: Mapping[str, Callable[[], T]], executor: Executor | None) -> Iterator[Done[T]]:
    """Each job's end as it comes; the order is not promised. One broken job never stops the others."""
    if executor is None:
        yield from _here(jobs)
        return
    futures: dict[Future[T], str] = {executor.submit(_run, job): name for name, job in jobs.items()}
    for future in as_completed(futures):
        error = future.exception()
        yield Done(futures[future], None if error else future.result(), error)
