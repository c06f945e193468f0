"""Processes are started only where they are done sooner than one alone. Counted, not timed."""

import sys
from concurrent.futures import Executor, Future
from pathlib import Path
from shutil import copytree, ignore_patterns
from typing import Any

import pytest

from builder.options import PublishOptions
from builder.pipeline.answers import answer, opened
from builder.pipeline.job_bounds import expected_seconds
from builder.pipeline.publish import publish_site
from builder.publish.workers.cluster import Carrier
from builder.publish.workers.crew import Crew
from tests.workspace_edits import ROOT


class _Here(Executor):
    """Stands in for a pool: does its jobs at once."""

    def submit(self, fn: Any, /, *args: Any, **kwargs: Any) -> "Future[Any]":
        done: Future[Any] = Future()
        done.set_result(fn(*args, **kwargs))
        return done


@pytest.fixture
def started(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """The workers of each pool that is started."""
    pools: list[int] = []

    def pool(workers: int, megabytes: int = 0) -> Executor:
        pools.append(workers)
        return _Here()

    monkeypatch.setattr(sys.modules["builder.publish.workers.crew"], "process_pool", pool)
    return pools


def _crew(workers: int) -> Crew:
    return Crew(PublishOptions(workers=workers), 0, Carrier(answer, opened))


@pytest.mark.parametrize(
    ("workers", "jobs", "pools"),
    [
        (2, {"build": 1, "compare": 4}, 0),
        (2, {"part": 90, "tables": 1}, 0),
        (8, {"part": 90, "tables": 1}, 0),
        (2, {"pdf": 1}, 0),
        (8, {"build": 1, "pdf": 1}, 0),
        (2, {"pdf": 2}, 1),
        (2, {"build": 5, "reference": 1}, 1),
        (2, {"build": 8, "compare": 28}, 1),
        (1, {"build": 8, "pdf": 8}, 0),
        (2, {}, 0),
    ],
    ids=str,
)
def test_a_pool_is_started_for_work_that_pays(
    started: list[int], workers: int, jobs: dict[str, int], pools: int
) -> None:
    names = [f"{kind}:{n}" for kind, count in jobs.items() for n in range(count)]
    pool = _crew(workers).executor(expected_seconds(names))
    assert started == [workers] * pools
    assert (pool is not None) == bool(pools)


def test_one_that_was_started_does_work_that_it_would_not_be_started_for(
    started: list[int],
) -> None:
    crew, few = _crew(2), expected_seconds(["compare:a:b", "compare:a:c"])
    assert crew.executor(few) is None
    first = crew.executor(expected_seconds(["pdf:a", "pdf:b"]))
    assert crew.executor(few) is first is not None
    assert crew.executor(expected_seconds([f"part:{n}" for n in range(90)])) is None, (
        "handing over takes longer"
    )
    assert started == [2]


def test_a_pool_that_broke_counts_as_none(started: list[int]) -> None:
    crew, heavy = _crew(2), expected_seconds(["pdf:a", "pdf:b"])
    first = crew.executor(heavy)
    first._broken = True  # type: ignore[union-attr]  # as the standard pool says it
    assert crew.executor(expected_seconds(["compare:a:b", "compare:a:c"])) is None
    assert crew.executor(heavy) is not first
    assert started == [2, 2]


def test_every_job_of_a_publish_has_its_expectation(published_demo: tuple[Path, object]) -> None:
    """The kinds are those of the records that a publish keeps."""
    text = (published_demo[0] / "site" / ".benchleaf.json").read_text("utf-8")
    kinds = [
        k
        for k in ("build", "compare", "part", "pictures", "reference", "tables")
        if f'"{k}' in text
    ]
    assert len(kinds) == 6
    assert all(0 < s < 10 for s in expected_seconds([*kinds, "pdf"]))


def test_an_edit_of_one_build_starts_none_and_a_first_publish_does(
    started: list[int], tmp_path: Path
) -> None:
    copytree(ROOT / "builds", tmp_path / "builds", ignore=ignore_patterns("curlew", "redshank"))
    assert publish_site(PublishOptions(tmp_path, pdf=False, workers=2)).errors == ()
    assert started == [2]
    file = tmp_path / "builds" / "pipit" / "build.yaml"
    file.write_text(file.read_text("utf-8").replace("title: ", "title: New ", 1), "utf-8")
    jobs: list[str] = []
    done = publish_site(
        PublishOptions(tmp_path, pdf=False, workers=2), lambda names, ended: jobs.extend(names)
    )
    assert done.errors == ()
    assert {"build:pipit", "compare:dipper:pipit", "tables"} <= set(jobs)
    assert len(jobs) >= 5
    assert started == [2]
