"""Runs jobs in worker processes through the standard Executor interface; in this process where that
cannot be had.

Workers are spawned and die with their parent (Linux: PR_SET_PDEATHSIG), so that a killed publish
leaves none behind.
"""

import os
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import (
    FIRST_COMPLETED,
    BrokenExecutor,
    CancelledError,
    Executor,
    Future,
    ProcessPoolExecutor,
    wait,
)
from dataclasses import dataclass
from itertools import islice
from multiprocessing import active_children, get_context
from typing import Any, Generic, TypeVar

from builder.publish.workers.bounded import TooLong, bounded_here, bounded_or_ended
from builder.publish.workers.garbage import collect_seldom
from builder.system.memory import is_watched, limit_memory, memory_bounded
from builder.system.workers import deaf, end_with, unheard

_T = TypeVar("_T")
Maker = Callable[[], Callable[[], _T]]  # gives a job
# a date that no output shows; WeasyPrint would otherwise read the clock
CONSTANT_EPOCH = "1700000000"


@dataclass(frozen=True)
class Done(Generic[_T]):
    """A job that ended: its value, or what went wrong inside it."""

    name: str
    value: _T | None
    error: BaseException | None
    watched: bool = False  # whether its process had no limit of memory but was watched


class Died(Exception):
    """The process that did a job ended before the job did: it was killed, or ran out of memory or
    time.
    """


class Watched(Generic[_T]):
    """What a job gave in a process whose memory is watched, as the machine sets no limit to it."""

    def __init__(self, value: _T) -> None:
        self.value = value


def _prepare(parent: int, megabytes: int) -> None:
    """Readies a worker: it dies with its parent and may take only so much memory (0: as much as
    there is).
    """
    deaf()
    if megabytes:
        limit_memory(megabytes)
    collect_seldom()
    os.environ["SOURCE_DATE_EPOCH"] = CONSTANT_EPOCH
    end_with(parent)


def _run(job: Callable[[], _T], seconds: int) -> _T | Watched[_T]:
    with bounded_or_ended(seconds):
        value = job()
    return Watched(value) if is_watched() else value


def _hand_over(pool: Executor, job: Callable[[], _T], seconds: int) -> "Future[_T | Watched[_T]]":
    with unheard():  # the pool starts its processes when it is given work
        return pool.submit(_run, job, seconds)


def _done(name: str, value: _T | Watched[_T]) -> Done[_T]:
    if isinstance(value, Watched):
        return Done(name, value.value, None, watched=True)
    return Done(name, value, None)


def _here(jobs: Mapping[str, Maker[_T]], seconds: int, megabytes: int) -> Iterator[Done[_T]]:
    os.environ["SOURCE_DATE_EPOCH"] = CONSTANT_EPOCH
    for name, make in jobs.items():
        job = make()
        try:
            with bounded_here(name, seconds), memory_bounded(megabytes):
                value = job()
        except (Exception, TooLong) as error:  # noqa: BLE001 - one broken job must not stop the others; it is reported
            yield Done(name, None, error)
        else:
            yield Done(name, value, None)


def process_pool(workers: int, megabytes: int = 0) -> Executor | None:
    """A pool of spawned processes, or None where the machine has no room for one (no /dev/shm,
    say).
    """
    try:
        return ProcessPoolExecutor(
            workers,
            mp_context=get_context("spawn"),
            initializer=_prepare,
            initargs=(os.getpid(), megabytes),
        )
    except (OSError, ImportError, NotImplementedError):
        return None


def abandon(pool: Executor) -> None:
    """Lets a pool go in the middle of its work; its processes, and any others of ours, are ended."""
    pool.shutdown(wait=False, cancel_futures=True)
    for worker in active_children():
        worker.kill()


def _one_by_one(jobs: Mapping[str, Maker[_T]], seconds: int, megabytes: int) -> Iterator[Done[_T]]:
    """Jobs whose pool died, each alone, so that the one that kills its process is known and the
    others get done.
    """
    pool: Executor | None = None
    try:
        for name, make in jobs.items():
            job = make()
            pool = pool or process_pool(1, megabytes)
            try:
                if pool is None:
                    raise BrokenExecutor
                yield _done(name, _hand_over(pool, job, seconds).result())
            except BrokenExecutor:
                pool = None
                yield Done(name, None, Died("the process that made it ended before it was done"))
            except (Exception, TooLong) as error:  # noqa: BLE001 - one broken job must not stop the others; it is reported
                yield Done(name, None, error)
    except KeyboardInterrupt:
        if pool is not None:
            abandon(pool)
        raise
    finally:
        if pool is not None:
            pool.shutdown()


def _error_of(future: Future[Any]) -> BaseException | None:
    """What went wrong in a job; CancelledError as a value where whoever ran it gave up (a cluster
    that went away).
    """
    try:
        return future.exception()
    except CancelledError as error:
        return error


def run(
    jobs: Mapping[str, Maker[_T]],
    executor: Executor | None,
    seconds: int = 3600,
    megabytes: int = 0,
    at_once: int = 8,
) -> Iterator[Done[_T]]:
    """Each job's end as it comes; the order is not promised. One broken job never stops the others.

    A job is made when its turn comes, so that no more than `at_once` are held with what they are
    made from. One that takes longer than `seconds` ends with TooLong; one whose process dies is
    done again alone, then Died.
    """
    if executor is None:
        yield from _here(jobs, seconds, megabytes)
        return
    waiting: dict[Future[_T | Watched[_T]], str] = {}
    lost: dict[str, Maker[_T]] = {}
    coming = iter(jobs.items())
    while True:
        for name, make in islice(coming, at_once - len(waiting)):
            try:
                waiting[_hand_over(executor, make(), seconds)] = name
            except BrokenExecutor:
                lost[name] = make
        if not waiting:
            break
        ended, _ = wait(waiting, return_when=FIRST_COMPLETED)
        for future in ended:
            name, error = waiting.pop(future), _error_of(future)
            if isinstance(error, BrokenExecutor | CancelledError):
                lost[name] = jobs[name]
            elif error is not None:
                yield Done(name, None, error)
            else:
                yield _done(name, future.result())
    yield from _one_by_one({**lost, **dict(coming)}, seconds, megabytes)
