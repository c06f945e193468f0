"""A publish on a Dask cluster gives the bytes of a publish here; what is missing is said in one line.

The cluster library is optional: these run in the environment of the benchmarks (`make bench`), and elsewhere skip.
"""

import importlib.util
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner

from builder.cli.main import cli
from builder.pipeline.publish import publish
from tests.publish.exactness import site_files
from tests.publish.sources import Sources

_HAVE = importlib.util.find_spec("distributed") is not None
_needs = pytest.mark.skipif(not _HAVE, reason="distributed is not installed; `make bench` runs this with it")


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
        "benchleaf: --cluster needs the package distributed, which is not installed.\n"
        "  Install it with: pip install 'benchleaf[cluster]'.\n",
    )


@_needs
@pytest.mark.parametrize("address", ["tcp://127.0.0.1:9", "nonsense:"])
def test_an_address_that_does_not_answer(tmp_path: Path, address: str) -> None:
    status, said = _says(tmp_path, address)
    assert status == 1
    assert said.startswith(f"benchleaf: No Dask cluster answers at {address}.\n  Start a scheduler there")


@_needs
@pytest.mark.filterwarnings("default")  # the library's own
def test_two_workers_of_a_local_cluster_give_the_same_bytes(tmp_path: Path) -> None:
    from distributed import LocalCluster

    here, there = tmp_path / "here", tmp_path / "there"
    for workspace in (here, there):
        Sources().write(workspace)
    done = publish(Sources().options(here, pdf=True))
    with LocalCluster(n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None) as cluster:
        options = replace(Sources().options(there, pdf=True), cluster=cluster.scheduler_address)
        far = publish(options)
        assert (far.errors, far.published, far.written) == ((), done.published, done.written)
    assert site_files(there) == site_files(here)
    assert "wren/bench-sheet.pdf" in site_files(there)
