"""Who does a publish's jobs: the machines of a cluster, processes here, or this process alone."""

import os
from concurrent.futures import Executor

from builder.options import PublishOptions
from builder.publish.cluster import Cluster
from builder.publish.workers import process_pool


def executor_for(options: PublishOptions, jobs: int, megabytes: int) -> Executor | None:
    """For so many jobs; None for this process alone, since a few are done before others have started.

    Raises PublishError where the cluster that was asked for is not to be had.
    """
    if options.cluster and jobs:
        return Cluster(options.cluster)
    workers = options.workers or os.cpu_count() or 1
    return process_pool(min(workers, jobs), megabytes) if workers > 1 and jobs > 3 else None
