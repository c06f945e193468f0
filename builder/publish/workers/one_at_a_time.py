"""One job at a time in a process of its own, for threads that wait for it: what hangs or dies there
harms nobody else.
"""

from collections.abc import Callable
from concurrent.futures import CancelledError, Executor, Future, ThreadPoolExecutor
from multiprocessing.process import BaseProcess
from typing import TypeVar

from builder.publish.workers.pool import process_pool, run

_T = TypeVar("_T")


class OwnProcess:
    """A process that does one job at a time within bounds. It starts with the first, and anew after
    one that died.

    One thread speaks with it as long as it lives: on Linux a worker dies with the thread that
    started it.
    """

    def __init__(self) -> None:
        self._thread = ThreadPoolExecutor(1, "own process")
        self._pool: Executor | None = None
        self._closed = False
        self._given: set[Future[object]] = set()
        # whether this machine starts no process: jobs are done in the thread, without bounds
        self.lacking = False

    def submit(self, job: Callable[[], _T], seconds: int, megabytes: int) -> Future[_T]:
        """What a job will give, or raise: TooLong, MemoryError, Died, or an error of its own."""
        given = self._thread.submit(self._do, job, seconds, megabytes)
        self._given = {one for one in self._given if not one.done()} | {given}  # type: ignore[arg-type]  # only looked at
        return given

    @property
    def waiting(self) -> int:
        """How many jobs it was given that have not ended: what comes now waits for all of them."""
        return sum(not one.done() for one in self._given)

    def _do(self, job: Callable[[], _T], seconds: int, megabytes: int) -> _T:
        if self._pool is None or getattr(self._pool, "_broken", False):
            self._end()
            self._pool = process_pool(1, megabytes)
        self.lacking = self._pool is None

        def given() -> Callable[[], _T]:
            if self._closed:  # it would be tried once more, as its process was ended
                raise CancelledError
            return job

        (done,) = run({"": given}, self._pool, seconds, megabytes, 1)
        if done.error is not None:
            raise done.error
        return done.value  # type: ignore[return-value]  # it ended without an error

    def _end(self) -> None:
        """Lets the process go in the middle of whatever it does."""
        pool, self._pool = self._pool, None
        if pool is None:
            return
        processes: dict[int, BaseProcess] = getattr(pool, "_processes", None) or {}
        pool.shutdown(wait=False, cancel_futures=True)
        for process in list(processes.values()):
            process.kill()

    def close(self) -> None:
        """Ends the process, whatever it does."""
        self._closed = True
        self._thread.shutdown(wait=False, cancel_futures=True)
        self._end()
