"""A publish on a Dask cluster gives the bytes of a publish here; what is missing is said in one
line.

The cluster library is optional: these run in the environment of the benchmarks (`make bench`), and
elsewhere skip.
"""

import importlib.util
import json
import os
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from shutil import copytree
from typing import Any

import pytest
from click.testing import CliRunner

from builder.cli.main import cli
from builder.pipeline.publish import publish_site
from builder.publish.swap import PublishError
from builder.publish.workers.cluster import about, version_difference
from tests.publish.exactness import site_files
from tests.publish.sources import Sources
from tests.workspace_edits import ROOT

_HAVE = importlib.util.find_spec("distributed") is not None
_needs = pytest.mark.skipif(
    not _HAVE, reason="distributed is not installed; `make bench` runs this with it"
)


def _says(tmp_path: Path, address: str) -> tuple[int, str]:
    Sources().write(tmp_path)
    words = ["publish", "--no-pdf", "--workspace", str(tmp_path), "--cluster", address]
    done = CliRunner().invoke(cli, words)
    assert not (tmp_path / "site").exists(), "nothing was published"
    return done.exit_code, done.output


@pytest.mark.skipif(_HAVE, reason="distributed is installed here")
def test_without_the_library_it_says_how_to_get_it(tmp_path: Path) -> None:
    assert _says(tmp_path, "tcp://127.0.0.1:9") == (
        1,
        (
            "benchleaf: --cluster needs the package distributed, which is not installed.\n"
            "  Install it with: pip install 'benchleaf[cluster]'.\n"
        ),
    )


@_needs
@pytest.mark.parametrize("address", ["tcp://127.0.0.1:9", "nonsense:"])
def test_an_address_that_does_not_answer(tmp_path: Path, address: str) -> None:
    status, said = _says(tmp_path, address)
    assert status == 1
    assert said.startswith(
        f"benchleaf: No Dask cluster answers at {address}.\n  Start a scheduler there"
    )


def test_what_a_worker_has_otherwise_is_named() -> None:
    here = about()
    assert version_difference(json.dumps(here).encode()) == ""
    older = json.dumps(here | {"Benchleaf": "0.0.9", "pyyaml": "1"}).encode()
    assert version_difference(older) == f"Benchleaf 0.0.9, and this machine {here['Benchleaf']}"
    assert (
        version_difference(json.dumps(here | {"pydyf": "0.1"}).encode())
        == f"pydyf 0.1, and this machine {here['pydyf']}"
    )
    assert "its code differs" in version_difference(json.dumps(here | {"the code": "x"}).encode())
    for odd in (b"", b"[" * 100_000, b"[]", ModuleNotFoundError("builder"), None):
        assert version_difference(odd) == "no Benchleaf, or one that is older"


@contextmanager
def _started(*words: str, at: Path, path: str) -> Iterator[subprocess.Popen[bytes]]:
    """A process of the library, with this path for Python."""
    env = os.environ | {"PYTHONPATH": path}
    quiet = subprocess.DEVNULL
    child = subprocess.Popen(
        [sys.executable, "-m", "dask", *words], cwd=at, env=env, stdout=quiet, stderr=quiet
    )
    try:
        yield child
    finally:
        child.kill()
        child.wait()


@contextmanager
def _cluster(
    folder: Path, path: str = str(ROOT)
) -> Iterator[tuple[str, list[subprocess.Popen[bytes]]]]:
    """A scheduler and one worker in processes of their own: its address, and both."""
    from distributed import Client

    file = folder / "scheduler.json"
    scheduler = (
        "scheduler",
        "--host",
        "127.0.0.1",
        "--port",
        "0",
        "--no-dashboard",
        "--scheduler-file",
        str(file),
    )
    worker = (
        "worker",
        "--scheduler-file",
        str(file),
        "--no-nanny",
        "--nthreads",
        "1",
        "--no-dashboard",
    )
    with (
        _started(*scheduler, at=folder, path=str(ROOT)) as first,
        _started(*worker, at=folder, path=path) as second,
    ):
        until = time.monotonic() + 120
        while not file.exists() and time.monotonic() < until:
            time.sleep(0.2)
        address = json.loads(file.read_text("utf-8"))["address"]
        with Client(address, set_as_default=False, timeout=60) as client:
            client.wait_for_workers(1, timeout=120)
        yield address, [first, second]


@pytest.fixture
def workspace(tmp_path: Path) -> Path:
    """A published workspace with an edit that is not published yet."""
    sources, made = Sources(), tmp_path / "made"
    sources.write(made)
    publish_site(sources.options(made))
    for tree in sources.builds.values():
        tree["title"] += ", again"
    sources.write(made)
    return made


@_needs
@pytest.mark.filterwarnings("default")  # the library's own
@pytest.mark.parametrize(
    ("who", "why"),
    [
        ((1,), {"gave no sign of a worker for 20 s"}),
        ((0, 1), {"gave no sign of a worker for 20 s", "gave up the work"}),
    ],
    ids=["the worker", "the scheduler too"],
)
def test_a_cluster_that_died_is_said_within_half_a_minute(
    workspace: Path, tmp_path: Path, who: tuple[int, ...], why: set[str]
) -> None:
    before = site_files(workspace)
    died: list[float] = []
    with _cluster(tmp_path) as (address, processes):

        def kill(names: tuple[str, ...], ended: str) -> None:
            if names and not died:
                died.append(time.monotonic())
                for number in who:
                    processes[number].kill()

        with pytest.raises(PublishError) as said:
            publish_site(replace(Sources().options(workspace), cluster=address), kill)
    assert time.monotonic() - died[0] < 32
    assert said.value.message in {
        f"The Dask cluster at {address} {one}; nothing was published." for one in why
    }
    assert site_files(workspace) == before


def _other_benchleaf(folder: Path) -> str:
    for name in ("builder", "templates"):
        copytree(ROOT / name, folder / name)
    init = folder / "builder/__init__.py"
    init.write_text(
        init.read_text("utf-8").replace('__version__ = "', '__version__ = "9.'), "utf-8"
    )
    return str(folder)


def _other_library(folder: Path) -> str:
    """Found before the real one by whoever asks which version is installed."""
    (folder / "pydyf-0.0.1.dist-info").mkdir(parents=True)
    about_it = "Metadata-Version: 2.1\nName: pydyf\nVersion: 0.0.1\n"
    (folder / "pydyf-0.0.1.dist-info/METADATA").write_text(about_it, "utf-8")
    return f"{folder}:{ROOT}"


def _no_benchleaf(folder: Path) -> str:
    (folder / "builder").mkdir(parents=True)
    (folder / "builder/__init__.py").touch()
    return str(folder)


@_needs
@pytest.mark.filterwarnings("default")  # the library's own
@pytest.mark.parametrize(
    ("make", "words"),
    [
        (_other_benchleaf, "has Benchleaf 9."),
        (_other_library, "has pydyf 0.0.1, and this machine "),
        (_no_benchleaf, "has no Benchleaf, or one that is older."),
    ],
)
def test_a_worker_that_would_make_other_bytes_is_named(
    workspace: Path, tmp_path: Path, make: Callable[[Path], str], words: str
) -> None:
    before = site_files(workspace)
    with _cluster(tmp_path, make(tmp_path / "other")) as (address, _):
        done = CliRunner().invoke(
            cli,
            ["publish", "--no-pdf", "--workspace", str(workspace), "--cluster", address],
            catch_exceptions=False,
        )
    first, second = done.output.strip().splitlines()
    assert first.startswith("benchleaf: The worker at tcp://") and words in first
    assert "report" not in done.output and second.startswith("  Install the same there as here")
    assert done.exit_code == 1 and site_files(workspace) == before


@_needs
@pytest.mark.filterwarnings("default")  # the library's own
def test_certificates_come_from_the_librarys_settings(workspace: Path, tmp_path: Path) -> None:
    pytest.importorskip(
        "cryptography", reason="the library makes certificates for a test with `cryptography`"
    )
    import dask
    from distributed import LocalCluster, Security

    security = Security.temporary()
    named: dict[str, Any] = {"distributed.comm.tls.ca-file": security.tls_ca_file}
    for kind, pem in (("cert", security.tls_client_cert), ("key", security.tls_client_key)):
        named[f"distributed.comm.tls.client.{kind}"] = pem
    for name, pem in named.items():
        file = tmp_path / f"{name}.pem"
        file.write_text(pem, "utf-8")
        named[name] = str(file)
    options = Sources().options(workspace)
    with LocalCluster(
        n_workers=1,
        threads_per_worker=1,
        processes=True,
        dashboard_address=None,
        security=security,
        protocol="tls://",
    ) as cluster:
        far = replace(options, cluster=cluster.scheduler_address)
        assert far.cluster.startswith("tls://")
        with pytest.raises(PublishError, match="No Dask cluster answers at tls://"):
            publish_site(far)
        with dask.config.set(named):
            assert publish_site(far).errors == ()


@_needs
@pytest.mark.filterwarnings("default")  # the library's own
def test_two_workers_of_a_local_cluster_give_the_same_bytes(tmp_path: Path) -> None:
    from distributed import LocalCluster

    here, there = tmp_path / "here", tmp_path / "there"
    for workspace in (here, there):
        Sources().write(workspace)
    done = publish_site(Sources().options(here, pdf=True))
    with LocalCluster(
        n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None
    ) as cluster:
        options = replace(Sources().options(there, pdf=True), cluster=cluster.scheduler_address)
        far = publish_site(options)
        assert (far.errors, far.published, far.written) == ((), done.published, done.written)
    assert site_files(there) == site_files(here)
    assert "wren/bench-sheet.pdf" in site_files(there)
