"""Who does a publish's jobs: the machines of a cluster, processes here, or this process alone."""

import os
from collections.abc import Sequence
from concurrent.futures import Executor, ProcessPoolExecutor

from builder.options import PublishOptions
from builder.publish.workers.cluster import Carrier, Cluster
from builder.publish.workers.pool import abandon, process_pool

_START = 1.5  # s until a new process has read in all that makes pages
_HAND_OVER = (
    0.02  # s for one job: what it is made from goes to the process, what it makes comes back
)


class Crew:
    """The workers of one publish. They start when there is work for them and stay, warm, until it
    ends.
    """

    def __init__(self, options: PublishOptions, megabytes: int, carrier: Carrier) -> None:
        self._options, self._megabytes, self._carrier = options, megabytes, carrier
        self._most = options.workers or os.cpu_count() or 1
        self._executor: Executor | None = None
        self.lacking = False  # whether there were to be processes and this machine starts none

    def executor(self, expected: Sequence[float]) -> Executor | None:
        """For jobs that are expected to take so many seconds each; None for this process alone.

        Raises PublishError where the cluster that was asked for is not to be had.
        """
        if getattr(
            self._executor, "_broken", False
        ):  # a worker died; the standard pool says so nowhere else
            self.close()
        pays = bool(expected) if self._options.cluster else self._pays(expected)
        if not pays or self.lacking:
            return None
        if self._executor is None and self._options.cluster:
            self._executor = Cluster(self._options.cluster, self._carrier)
        elif self._executor is None:
            self._executor = process_pool(self._most, self._megabytes)
            self.lacking = self._executor is None
        return self._executor

    def _pays(self, expected: Sequence[float]) -> bool:
        """Whether processes are done sooner than this one: they have to start first, and the
        longest job is one's alone.
        """
        at_once = min(self._most, len(expected))
        if at_once < 2:
            return False
        work = sum(expected)
        start = 0.0 if self._executor is not None else _START
        return start + _HAND_OVER * len(expected) + max(work / at_once, *expected) < work

    @property
    def at_once(self) -> int:
        """How many jobs are handed over before one comes back: enough that none waits, few enough
        to be held.
        """
        return 4 * (self._executor.workers if isinstance(self._executor, Cluster) else self._most)

    def abandon(self) -> None:
        """Lets the workers go in the middle of their work: nobody waits for what they make."""
        if isinstance(self._executor, ProcessPoolExecutor):
            abandon(self._executor)
            self._executor = None
        self.close()

    def close(self) -> None:
        """Lets the workers go."""
        if self._executor is not None:
            self._executor.shutdown(cancel_futures=True)
        self._executor = None
