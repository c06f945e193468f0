"""One page that hangs, dies or eats all memory in the preview blocks no other, and is said."""

import os
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from shutil import copytree
from threading import Thread
from typing import Any

import pytest

from builder.pipeline.preview import preview_jobs as module
from builder.pipeline.preview.preview import Preview
from tests.workspace_edits import ROOT

pytestmark = pytest.mark.slow  # takes long


@dataclass(frozen=True)
class _Bad:
    """Stands in for a sheet to print that does something instead."""

    does: Callable[[], Any]

    def __call__(self) -> Any:
        return self.does()


@pytest.fixture
def shown(tmp_path: Path) -> Iterator[Preview]:
    for name in ("shelf", "pipit", "curlew"):
        copytree(ROOT / "builds" / name, tmp_path / "builds" / name)
    (tmp_path / "builds" / "site.yaml").write_text(
        "title: Two\nat_most: {seconds: 15, worker_megabytes: 2000}\n"
    )
    made = Preview(tmp_path)
    yield made
    made.close()


def _printing(monkeypatch: pytest.MonkeyPatch, does: Callable[[], Any]) -> None:
    monkeypatch.setattr(module, "PdfJob", lambda *given: _Bad(does))


def test_while_a_sheet_hangs_every_page_is_served_and_it_is_stopped(
    shown: Preview, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert shown.file("pipit/index.html")  # its process has started
    _printing(monkeypatch, partial(time.sleep, 600))
    asked = Thread(target=shown.file, args=("pipit/bench-sheet.pdf",))
    asked.start()
    time.sleep(0.2)
    assert shown.file("curlew/index.html")
    assert asked.is_alive(), "the page waited for the sheet"
    asked.join(120)
    assert not asked.is_alive()
    said = [f for f in shown.state("pipit/index.html").findings if f.code == "data/too-slow"]
    assert [f.build for f in said] == ["pipit"] and "its PDF took over 15 s" in said[0].message


def test_while_a_page_hangs_another_is_served(
    shown: Preview, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as patch:
        patch.setattr(module, "SheetJob", lambda *given: _Bad(partial(time.sleep, 600)))
        asked = Thread(target=shown.file, args=("pipit/index.html",))
        asked.start()
        while not any(process.waiting for process in shown._pages):  # until the workspace is read
            time.sleep(0.05)
    assert shown.file("curlew/index.html")
    assert asked.is_alive(), "the one page waited for the other"
    asked.join(120)
    assert not asked.is_alive()


@pytest.mark.parametrize(
    ("does", "words"),
    [(partial(os._exit, 3), "ended before it was done"), (partial(bytes, 10**11), "2000 MB")],
    ids=["dies", "eats"],
)
def test_a_job_that_ends_its_process_is_said_and_the_next_is_made(
    shown: Preview, monkeypatch: pytest.MonkeyPatch, does: Callable[[], Any], words: str
) -> None:
    with monkeypatch.context() as patch:
        _printing(patch, does)
        assert shown.file("pipit/bench-sheet.pdf") is None
        state = shown.state("pipit/index.html")
        assert words in " ".join([*(f.message for f in state.findings), *state.errors])
    assert shown.file("curlew/mast.svg"), shown.state("curlew/index.html")
