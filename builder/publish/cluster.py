"""Jobs on the machines of a Dask cluster, through its Executor: values go out, bytes come back, no disk is shared."""

import os
from collections.abc import Callable
from concurrent.futures import Executor, Future
from typing import Any, TypeVar

from builder.publish.stale import code_digest
from builder.publish.swap import PublishError
from builder.publish.workers import CONSTANT_EPOCH
from builder.render.html import template_folder

T = TypeVar("T")
_PATIENCE = 10  # s, to connect


class OtherVersion(Exception):
    """A worker whose Benchleaf, or libraries, would make other bytes."""


def _run_there(job: Callable[[], T], code: str) -> T:
    """On a worker: does a job, if this machine would make the same bytes as the one that asks."""
    os.environ["SOURCE_DATE_EPOCH"] = CONSTANT_EPOCH
    if code_digest(template_folder()) != code:
        raise OtherVersion("a worker of the cluster has another version of Benchleaf or of its libraries")
    return job()


class Cluster(Executor):
    """The cluster at an address as an Executor. Raises PublishError where it is not to be had."""

    def __init__(self, address: str) -> None:
        try:
            from distributed import Client  # an optional extra; only those who have a cluster need it
        except ImportError as error:
            hint = "Install it with: pip install 'benchleaf[cluster]'."
            raise PublishError("--cluster needs the package distributed, which is not installed.", hint) from error
        try:
            self._client = Client(address, timeout=_PATIENCE, set_as_default=False)
            threads = [w["nthreads"] for w in self._client.scheduler_info(n_workers=-1)["workers"].values()]
        except (OSError, ValueError) as error:  # ValueError: no address at all
            hint = "Start a scheduler there, or publish without --cluster."
            raise PublishError(f"No Dask cluster answers at {address}.", hint) from error
        if set(threads) != {1}:
            self._client.close()
            hint = "Start workers with --nthreads 1, one for each core: the library that makes PDFs knows no threads."
            raise PublishError("The Dask cluster has no workers, or some with several threads.", hint)
        self._executor = self._client.get_executor(pure=False)
        self.workers = len(threads)
        self._code = code_digest(template_folder())

    def submit(self, fn: Callable[..., T], /, *args: Any, **kwargs: Any) -> Future[T]:
        """A job, its first argument, on one of the machines; what bounds it here (time, memory) is for them to say."""
        future: Future[T] = self._executor.submit(_run_there, args[0], self._code)
        return future

    def shutdown(self, wait: bool = True, *, cancel_futures: bool = False) -> None:
        """Lets go of the cluster, which lives on."""
        self._executor.shutdown(wait=wait)
        self._client.close()
