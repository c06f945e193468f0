"""Limits: stated in one place, settable by the publisher and by no build, and held in loading,
model and workers.
"""

import hashlib
import os
import sys
import time
from collections.abc import Callable
from dataclasses import fields
from functools import partial
from pathlib import Path
from typing import Any

import pytest

from builder.compute.compute import compute
from builder.compute.order.work_order import Plan
from builder.load.files import load
from builder.load.limits import DEFAULT_LIMITS, Limits, limit_words
from builder.model.read.workspace import read_workspace
from builder.model.site import AtMost
from builder.options import PublishOptions
from builder.pages.site.reference_page import rules_page
from builder.pipeline import build_jobs
from builder.pipeline.check import check_workspace, judged
from builder.pipeline.jobs import Made
from builder.pipeline.publish import publish_site
from builder.pipeline.published import Published
from builder.publish.kept.stopped_file import STOPPED, keep_stopped, read_stopped
from builder.publish.workers.bounded import TooLong
from builder.publish.workers.pool import Died, process_pool, run
from tests.hostile.at_limits import at_all_limits

Publish = Callable[[Path], Published]


def test_every_limit_is_stated_and_settable() -> None:
    names = [f.name for f in fields(Limits)]
    assert list(AtMost.model_fields) == names == [name for name, _, _ in limit_words()]
    page = repr(rules_page())
    for name, most, what in limit_words():
        assert f"'{name}'" in page and f"'{most}'" in page and what in page


def test_the_publisher_sets_limits_in_site_yaml(workspace: Path) -> None:
    with (workspace / "builds" / "site.yaml").open("a") as site:
        site.write("at_most: {wires: 3, seconds: 7}\n")
    loaded = load(workspace)
    assert loaded.limits.wires == 3 and loaded.limits.seconds == 7
    found = {f.build: f.message for f in read_workspace(loaded).findings}
    assert found["pipit"].endswith("wires; at most 3 are taken.")


def test_no_build_raises_its_own_limits(workspace: Path) -> None:
    with (workspace / "builds" / "pipit" / "build.yaml").open("a") as build:
        build.write("at_most: {wires: 900}\n")
    loaded = load(workspace)
    assert loaded.limits == DEFAULT_LIMITS
    assert [f.message for f in read_workspace(loaded).findings] == [
        "'at_most' is not a key that is known here."
    ]


@pytest.mark.parametrize("written", ["many", "-3", "0", "1e9", "[1]"])
def test_a_limit_that_is_no_number_is_said(workspace: Path, written: str) -> None:
    with (workspace / "builds" / "site.yaml").open("a") as site:
        site.write(f"at_most: {{wires: {written}}}\n")
    loaded = load(workspace)
    assert loaded.limits.wires == DEFAULT_LIMITS.wires
    assert (
        len([f for f in read_workspace(loaded).findings if f.where and "at_most" in f.where.path])
        == 1
    )


TOO_MUCH = {
    "wires": ("wires:\n" + "  - {from: a.b, to: c.d}\n" * 401, "401 wires"),
    "parts": ("parts:\n" + "".join(f"  p{i}: x\n" for i in range(201)), "201 parts"),
    "pieces": ("parts: {motor: {use: motor-1103, count: 99999}}\n", "pieces; at most 300"),
    "pictures": ("photos:\n" + "  - {file: a.png, alt: a}\n" * 101, "101 pictures"),
    "entries": ("steps:\n" + "  - {id: a, text: b}\n" * 1001, "1001 entries"),
    "values": ("questions: [" + "{ask: a, answer: b}," * 20_000 + "]\n", "over 50000 values"),
    "text": (f"summary: {'x' * 20_001}\n", "A text of 20001 characters"),
    "depth": ("setup: " + "[" * 200_000 + "\n", "nested too deep"),
    "file": ("summary: " + "# x\n" * 200_000, "at most 524288 are read"),
}


@pytest.mark.parametrize("what", TOO_MUCH)
def test_too_much_is_one_clear_message(workspace: Path, what: str) -> None:
    text, words = TOO_MUCH[what]
    (workspace / "builds" / "pipit" / "build.yaml").write_text(f"title: Much\n{text}")
    model = read_workspace(load(workspace))
    messages = [f.message for f in model.findings if f.build == "pipit"]
    assert any(words in m for m in messages) and len(messages) <= 2
    assert list(model.builds) == ["curlew"]


def test_a_long_chain_of_bases_is_refused(workspace: Path) -> None:
    for i in range(40):
        folder = workspace / "builds" / f"next-{i}"
        folder.mkdir()
        (folder / "build.yaml").write_text(
            f"title: N\nbased_on: {'pipit' if i == 0 else f'next-{i - 1}'}\n"
        )
    model = read_workspace(load(workspace))
    assert {f.code for f in model.findings} == {"data/too-large"}
    assert "next-10" in model.builds and "next-11" not in model.builds


def _busy() -> None:
    while True:
        time.sleep(0.01)


def _given(job: Callable[[], Any]) -> Callable[[], Any]:
    return job


def _ends(
    jobs: dict[str, Callable[[], Any]], workers: int
) -> dict[str, type[BaseException] | None]:
    pool = process_pool(workers, 4000) if workers else None
    try:
        makers = {name: partial(_given, job) for name, job in jobs.items()}
        return {
            done.name: type(done.error) if done.error else None
            for done in run(makers, pool, 1, 4000, 2)
        }
    finally:
        if pool is not None:
            pool.shutdown(cancel_futures=True)


def test_jobs_that_hang_die_or_eat_all_memory_do_not_stop_the_others() -> None:
    jobs: dict[str, Callable[[], Any]] = {
        "good": partial(len, "abc"),
        "sleeps": partial(time.sleep, 60),
        "dies": partial(os._exit, 3),
        "hears nothing": partial(
            hashlib.pbkdf2_hmac, "sha256", b"a", b"b", 10**9
        ),  # one long call in C
        "eats": partial(bytes, 10**11),
        "good too": partial(len, "ab"),
    }
    assert _ends(jobs, 2) == {
        "good": None,
        "sleeps": TooLong,
        "dies": Died,
        "hears nothing": Died,
        "eats": MemoryError,
        "good too": None,
    }


def test_without_workers_a_job_is_stopped_as_well() -> None:
    assert _ends({"hangs": _busy, "good": partial(len, "abc")}, 0) == {
        "hangs": TooLong,
        "good": None,
    }


def test_a_build_that_takes_too_long_is_said_and_the_others_are_published(
    workspace: Path, publishing: Publish, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = judged

    def slow(build: Any, *, draft: bool = False) -> Any:
        if build.name == "pipit":
            _busy()
        return real(build, draft=draft)

    monkeypatch.setattr(build_jobs, "judged", slow)
    before = (workspace / "site" / "pipit" / "index.html").read_bytes()
    with (workspace / "builds" / "site.yaml").open("a") as site:
        site.write("at_most: {seconds: 8}\n")
    for name in ("pipit", "curlew"):
        file = workspace / "builds" / name / "build.yaml"
        file.write_text(file.read_text().replace("title: ", "title: New ", 1))
    done = publishing(workspace)
    assert done.published == ("curlew",) and done.kept == ("pipit",)
    slow_ones = [f for f in done.findings if f.code == "data/too-slow" and "pages" in f.message]
    assert [f.build for f in slow_ones] == ["pipit"]
    assert (workspace / "site" / "pipit" / "index.html").read_bytes() == before


def test_check_goes_on_past_a_build_that_takes_too_long(
    workspace: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    module = sys.modules["builder.pipeline.check"]  # the package's own `check` is the function
    real = judged

    def slow(build: Any) -> Any:
        if build.name == "curlew":
            _busy()
        return real(build)

    monkeypatch.setattr(module, "judged", slow)
    with (workspace / "builds" / "site.yaml").open("a") as site:
        site.write("at_most: {seconds: 8}\n")
    done = check_workspace(workspace)
    assert list(done.sheets) == ["pipit"]
    assert [f.code for f in done.stops] == ["data/too-slow"]


def test_what_ran_into_its_limit_is_not_tried_again(
    workspace: Path, publishing: Publish, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It is said each time; it is tried when its sources change, with --everything, or without what
    was kept of it.
    """
    tried: list[str] = []

    class Slow(build_jobs.BuildJob):
        def __call__(self) -> Made:
            tried.append(self.build.name)
            if self.build.name == "pipit":
                raise TooLong(7)
            return super().__call__()

    class Pair(build_jobs.CompareJob):
        def __call__(self) -> Made:
            tried.append(f"{self.first.name}:{self.second.name}")
            return super().__call__()

    wanted = sys.modules["builder.pipeline.wanted"]
    monkeypatch.setattr(wanted, "BuildJob", Slow)
    monkeypatch.setattr(wanted, "CompareJob", Pair)

    def said(done: Published) -> list[tuple[str, str, str]]:
        return [(f.code, f.build, f.message) for f in done.findings if f.code == "data/too-slow"]

    file = workspace / "builds" / "pipit" / "build.yaml"
    file.write_text(file.read_text().replace("title: ", "title: New ", 1))
    first = publishing(workspace)
    assert tried == ["pipit"], "its comparison was tried"
    assert said(first) and said(publishing(workspace)) == said(first)
    assert tried == ["pipit"]
    assert publish_site(PublishOptions(workspace, pdf=False, workers=1, everything=True)).kept == (
        "pipit",
    )
    assert tried.count("pipit") == 2
    (workspace / ".site-stopped").unlink()
    publishing(workspace)
    assert tried.count("pipit") == 3
    with (workspace / "builds" / "site.yaml").open("a") as site:
        site.write("at_most: {seconds: 300}\n")
    publishing(workspace)
    assert tried.count("pipit") == 4, "other limits"
    file.write_text(file.read_text().replace("title: New ", "title: Newer ", 1))
    publishing(workspace)
    assert tried.count("pipit") == 5, "other sources"


def test_with_and_without_what_was_kept_of_it_the_site_is_the_same(
    workspace: Path, publishing: Publish, monkeypatch: pytest.MonkeyPatch
) -> None:
    class Slow(build_jobs.BuildJob):
        def __call__(self) -> Made:
            if self.build.name == "pipit":
                raise MemoryError
            return super().__call__()

    monkeypatch.setattr(sys.modules["builder.pipeline.wanted"], "BuildJob", Slow)
    file = workspace / "builds" / "pipit" / "build.yaml"
    file.write_text(file.read_text().replace("title: ", "title: New ", 1))

    def site() -> dict[str, bytes]:
        folder = workspace / "site"
        return {
            str(p.relative_to(folder)): p.read_bytes()
            for p in sorted(folder.rglob("*"))
            if p.is_file()
        }

    publishing(workspace)
    publishing(workspace)
    remembered = site()
    (workspace / ".site-stopped").unlink()
    publishing(workspace)
    assert site() == remembered


@pytest.mark.parametrize(
    "kept",
    [
        "",
        "[]",
        "{}",
        '{"version": 1, "jobs": {"a": 3}}',
        '{"version": 1, "jobs": {"a": ["b", "c"]}}',
    ],
)
def test_a_record_of_what_was_stopped_that_says_anything_is_no_record(
    tmp_path: Path, kept: str
) -> None:
    (tmp_path / STOPPED).write_text(kept, "utf-8")
    assert read_stopped(tmp_path) == {}
    keep_stopped(tmp_path, {"build:a": ("d", "time")}, {})
    assert read_stopped(tmp_path) == {"build:a": ("d", "time")}
    keep_stopped(tmp_path, {}, {"build:a": ("d", "time")})
    assert not (tmp_path / STOPPED).exists()


def test_a_build_at_all_limits_is_computed(tmp_path: Path) -> None:
    """It once took minutes. Counted on the processor, with room for a slow one: other programs do
    not count.
    """
    model = read_workspace(load(at_all_limits(tmp_path)))
    assert model.findings == () and len(model.builds["full"].source.steps) == DEFAULT_LIMITS.entries
    began = time.process_time()
    order = compute(model.builds["full"]).order
    assert time.process_time() - began < 30
    assert isinstance(order, Plan)
    place = {step.id: i for i, step in enumerate(order.steps)}
    assert len(place) == len(order.steps) > DEFAULT_LIMITS.entries
    assert all(place[c.before] < place[c.after] for c in order.constraints)
