"""One job at a time in a process of its own, for threads that wait for it: what hangs or dies there harms nobody else."""

from collections.abc import Callable
from concurrent.futures import Executor
from multiprocessing.process import BaseProcess
from threading import Lock
from typing import TypeVar

from builder.publish.workers.pool import process_pool, run

_T = TypeVar("_T")


class OwnProcess:
    """A process that does one job at a time within bounds. It starts with the first, and anew after one that died."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._pool: Executor | None = None
        self.lacking = False  # whether this machine starts no process: jobs are done in the thread that asks, unbounded

    def do(self, job: Callable[[], _T], seconds: int, megabytes: int) -> _T:
        """What a job gives. Raises what it raised: TooLong, MemoryError, Died, or an error of its own."""
        with self._lock:
            if self._pool is None or getattr(self._pool, "_broken", False):
                self._end()
                self._pool = process_pool(1, megabytes)
            self.lacking = self._pool is None
            (done,) = run({"": lambda: job}, self._pool, seconds, megabytes, 1)
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
        self._end()
