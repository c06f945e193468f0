"""Who does a publish's jobs: the machines of a cluster, processes here, or this process alone."""

import os
from concurrent.futures import Executor

from builder.options import PublishOptions
from builder.publish.cluster import Cluster
from builder.publish.workers import process_pool


def _workers(options: PublishOptions) -> int:
    return options.workers or os.cpu_count() or 1


def wants_workers(options: PublishOptions, jobs: int) -> bool:
    """Whether so many jobs are worth processes of their own."""
    return _workers(options) > 1 and jobs > 3


def executor_for(options: PublishOptions, jobs: int, megabytes: int) -> Executor | None:
    """For so many jobs; None for this process alone, since a few are done before others have started.

    Raises PublishError where the cluster that was asked for is not to be had.
    """
    if options.cluster and jobs:
        return Cluster(options.cluster)
    return process_pool(min(_workers(options), jobs), megabytes) if wants_workers(options, jobs) else None


def jobs_at_once(executor: Executor | None, options: PublishOptions) -> int:
    """How many jobs are handed over before one comes back: enough that no worker waits, few enough to be held."""
    return 4 * (executor.workers if isinstance(executor, Cluster) else _workers(options))
