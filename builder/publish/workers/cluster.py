"""Jobs on the machines of a Dask cluster, through its Executor: values go out, bytes come back, no
disk is shared.

The library pickles what it sends, its own messages too, and reads them so without asking: a
scheduler or worker can run code on this machine, whatever we do. What is ours comes back as plain
bytes all the same, so that no answer is taken for more than it is. `tls://` addresses use the
certificates that the library's own settings name.
"""

import json
import os
import threading
import time
from collections.abc import Callable
from concurrent.futures import CancelledError, Executor, Future, InvalidStateError
from contextlib import suppress
from typing import Any, NamedTuple

from builder import __version__
from builder.publish.kept.stale import code_digest, library_versions
from builder.publish.swap import PublishError
from builder.publish.workers.pool import CONSTANT_EPOCH, Died
from builder.render.html.page import template_folder

_PATIENCE = 10  # s, to connect and to be told who works there
_SILENCE = 20  # s without a sign of any worker until a cluster counts as gone
_STEP = 1.0  # s between two looks
_OTHER = "Install the same there as here, or publish without --cluster."


class Carrier(NamedTuple):
    """`do` does a job on a worker and gives bytes; `open` makes its value of them, or raises what
    went wrong.
    """

    do: Callable[[Callable[[], Any]], bytes]
    open: Callable[[object], Any]


def about() -> dict[str, str]:
    """What a machine makes pages with: names and versions, and the digest of all code that can
    change a byte.
    """
    return {
        "Benchleaf": __version__,
        **library_versions(),
        "the code": code_digest(template_folder()),
    }


def _about_there() -> bytes:
    return json.dumps(about()).encode()


def _run_there(
    job: Callable[[], Any], do: Callable[[Callable[[], Any]], bytes], code: str
) -> bytes:
    """On a worker: does a job, if this machine would make the same bytes as the one that asks."""
    os.environ["SOURCE_DATE_EPOCH"] = CONSTANT_EPOCH
    return do(job) if code_digest(template_folder()) == code else b""


def version_difference(there: object) -> str:
    """What a worker has otherwise, from what it said of itself; empty where it would make the same
    bytes.
    """
    try:
        said = json.loads(there) if isinstance(there, bytes) else None
    except (ValueError, RecursionError):
        said = None
    if not isinstance(said, dict):
        return "no Benchleaf, or one that is older"
    here = about()
    for name, version in here.items():
        if said.get(name) == version:
            continue
        if name == "the code":
            return f"another Benchleaf {here['Benchleaf']}: its code differs"
        return f"{name} {str(said.get(name, 'absent'))[:40]}, and this machine {version}"
    return ""


class Cluster(Executor):
    """The cluster at an address as an Executor. Raises PublishError where it is not to be had."""

    def __init__(self, address: str, carrier: Carrier) -> None:
        try:
            from distributed import (
                Client,
            )  # an optional extra; only those who have a cluster need it
        except ImportError as error:
            hint = "Install it with: pip install 'benchleaf[cluster]'."
            raise PublishError(
                "--cluster needs the package distributed, which is not installed.", hint
            ) from error
        self._address, self._carrier = address, carrier
        try:
            self._client = Client(address, timeout=_PATIENCE, set_as_default=False)
        except (
            OSError,
            ValueError,
            TypeError,
        ) as error:  # ValueError: no address at all; TypeError: no certificates
            hint = "Start a scheduler there, or publish without --cluster."
            if address.startswith("tls:"):
                hint = (
                    "Start a scheduler there, and name its certificates in the library's settings"
                    " (see README)."
                )
            raise PublishError(f"No Dask cluster answers at {address}.", hint) from error
        try:
            self.workers = self._ask_workers()
        except BaseException:
            self._client.close(timeout=_PATIENCE)
            raise
        self._executor = self._client.get_executor(pure=False)
        self._code = code_digest(template_folder())
        self._waiting: set[Future[Any]] = set()
        self._lock, self._ended = threading.Lock(), threading.Event()
        self._gone = False
        threading.Thread(target=self._watch, name="cluster watch", daemon=True).start()

    def _ask_workers(self) -> int:
        """How many workers there are. PublishError where there are none, or some that do not do."""
        try:
            threads = [
                w["nthreads"] for w in self._client.scheduler_info(n_workers=-1)["workers"].values()
            ]
            if set(threads) == {1}:
                said = self._client.sync(
                    self._client._run, _about_there, on_error="return", callback_timeout=_PATIENCE
                )
        except (OSError, KeyError) as error:  # the library's TimeoutError is an OSError
            raise self._lost("does not say who works there") from error
        if set(threads) != {1}:
            hint = (
                "Start workers with --nthreads 1, one for each core: the library that makes PDFs"
                " knows no threads."
            )
            raise PublishError(
                "The Dask cluster has no workers, or some with several threads.", hint
            )
        for worker, there in sorted(said.items()):
            if differs := version_difference(there):
                raise PublishError(f"The worker at {worker} has {differs}.", _OTHER)
        return len(threads)

    def _lost(self, why: str = f"gave no sign of a worker for {_SILENCE} s") -> PublishError:
        message = f"The Dask cluster at {self._address} {why}; nothing was published."
        return PublishError(
            message, "Start workers there, or publish without --cluster; the old site is untouched."
        )

    def submit(self, fn: Callable[..., Any], /, *args: Any, **kwargs: Any) -> Future[Any]:
        """A job, its first argument, on one of the machines; what bounds it here (time, memory) is
        for them to say.
        """
        ours: Future[Any] = Future()
        with self._lock:
            if self._gone:
                ours.set_exception(self._lost())
                return ours
            self._waiting.add(ours)
        theirs = self._executor.submit(_run_there, args[0], self._carrier.do, self._code)
        theirs.add_done_callback(lambda done: self._take(ours, done))
        return ours

    def _take(self, ours: Future[Any], theirs: Future[Any]) -> None:
        """Ends our future as theirs ended."""
        with self._lock:
            self._waiting.discard(ours)
        with suppress(InvalidStateError):  # it was given up before
            try:
                ours.set_result(self._value(theirs))
            except Exception as error:  # noqa: BLE001 - it is the job's; who waits for it will see it
                ours.set_exception(error)

    def _value(self, theirs: Future[Any]) -> Any:
        try:
            content = theirs.result()
        except CancelledError as error:
            raise self._lost("gave up the work") from error
        except Exception as error:
            if type(error).__name__ == "KilledWorker":
                raise Died("the workers that made it ended before it was done") from error
            raise
        if content == b"":
            problem = (
                "A worker that came to the cluster has another version of Benchleaf or of its"
                " libraries."
            )
            raise PublishError(problem, _OTHER)
        return self._carrier.open(content)

    def _watch(self) -> None:
        """Gives up what is waited for once no worker has given a sign for a while."""
        last, heard = "", time.monotonic()
        while not self._ended.wait(_STEP):
            sign = self._sign()
            if sign and sign != last:
                last, heard = sign, time.monotonic()
            if time.monotonic() - heard < _SILENCE:
                continue
            with self._lock:
                self._gone, lost = True, tuple(self._waiting)
                self._waiting.clear()
            for ours in lost:
                with suppress(InvalidStateError):
                    ours.set_exception(self._lost())
            return

    def _sign(self) -> str:
        """When the scheduler last heard of a worker, in its own words; empty where neither is
        there.
        """
        try:
            scheduler = self._client.scheduler
            told = self._client.sync(scheduler.identity, n_workers=-1, callback_timeout=2 * _STEP)
            seen = [w["last_seen"] for w in told["workers"].values()]
        except Exception:  # noqa: BLE001 - whatever keeps the scheduler from telling, there is no sign
            return ""
        return str(max(seen)) if seen else ""

    def shutdown(self, wait: bool = True, *, cancel_futures: bool = False) -> None:
        """Lets go of the cluster, which lives on."""
        self._ended.set()
        with suppress(Exception):  # a cluster that went away cannot be told
            self._executor.shutdown(wait=wait and not cancel_futures and not self._gone)
        with suppress(Exception):
            self._client.close(timeout=_PATIENCE if not self._gone else _STEP)
