"""Machines that lack something: it works all the same, or one sentence says what is left out."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from builder.cli.main import cli
from builder.pipeline import build_jobs
from builder.publish.workers import crew
from builder.publish.workers import pool as workers
from builder.render.paper.pdf_libraries import lacking
from builder.system.packages import install_words
from tests.workspace_edits import ROOT


@pytest.fixture
def workspace(tmp_path: Path) -> Path:
    run(tmp_path, "start", "my-build", "--size", "2-inch")
    return tmp_path


def run(folder: Path, *words: str) -> Result:
    return CliRunner().invoke(cli, [*words, "--workspace", str(folder)])


def sentences(done: Result) -> list[str]:
    return [line for line in done.stderr.splitlines() if line.startswith("benchleaf: ")]


def test_without_shared_memory_one_process_does_the_work_and_says_so(
    workspace: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_room(*given: object, **named: object) -> None:
        raise FileNotFoundError(
            2, "No such file or directory"
        )  # what Python raises without /dev/shm

    monkeypatch.setattr(workers, "ProcessPoolExecutor", no_room)
    monkeypatch.setattr(crew, "_START", -1000.0)  # processes are wanted for one build as well
    done = run(workspace, "publish", "--no-pdf", "--workers", "2")
    assert done.exit_code == 0, done.output
    assert sentences(done) == [
        (
            "benchleaf: This machine starts no worker processes (they need /dev/shm); all was made"
            " in one process."
        ),
        (
            "benchleaf: bench sheets were not printed, so no page leads to them. Publish without"
            " --no-pdf to print them."
        ),
    ]


def test_without_the_libraries_for_pdf_the_pages_are_made_and_the_exit_status_says_that_something_lacks(
    workspace: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(build_jobs, "lacking", lambda: ("libpango-1.0-0", "libharfbuzz-subset0"))
    done = run(workspace, "publish", "--workers", "1")
    assert done.exit_code == 1
    (sentence,) = sentences(done)
    assert sentence.startswith(
        "benchleaf: No bench sheet was printed: this machine lacks libpango-1.0-0"
        " libharfbuzz-subset0. Install "
    )
    assert install_words(("libpango-1.0-0", "libharfbuzz-subset0")) in sentence
    assert (workspace / "site" / "my-build" / "index.html").is_file()
    again = run(workspace, "publish", "--workers", "1")
    assert (again.exit_code, sentences(again)) == (1, sentences(done))  # said until it is mended


def test_a_bench_sheet_that_was_printed_elsewhere_is_kept_where_none_can_be_printed(
    workspace: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    if lacking():
        pytest.skip(
            f"this machine itself lacks {' '.join(lacking())}, so that nothing can be printed"
        )
    assert run(workspace, "publish", "--workers", "1").exit_code == 0
    sheet = workspace / "site" / "my-build" / "bench-sheet.pdf"
    printed = sheet.read_bytes()
    build = workspace / "builds" / "my-build" / "build.yaml"
    build.write_text(build.read_text("utf-8").replace("title: ", "title: Another ", 1), "utf-8")
    monkeypatch.setattr(build_jobs, "lacking", lambda: ("libpango-1.0-0",))
    assert run(workspace, "publish", "--workers", "1").exit_code == 1
    assert sheet.read_bytes() == printed


def test_a_library_that_is_not_there_is_named_by_its_package() -> None:
    assert lacking(
        {"made-up": ("libbenchleaf-made-up.so.0", "benchleaf-made-up"), "c": ("libc.so.6", "c")}
    ) == ("made-up",)


POOR = {
    "LC_ALL": "C",
    "PYTHONUTF8": "0",
    "PYTHONCOERCECLOCALE": "0",
    "HOME": "/proc/none",
    "PATH": "/nonexistent",
}


@pytest.mark.parametrize(
    "words", [("trace", "dipper", "mass/dry"), ("check", "curlew"), ("--help",), ("explain",)]
)
def test_a_terminal_without_utf_8_a_home_or_a_path_gets_its_answer(words: tuple[str, ...]) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "builder", *words],
        cwd=ROOT,
        env={**POOR, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    assert b"inside Benchleaf" not in done.stderr
    assert done.stdout


def test_printing_reads_no_setting_and_no_font_of_the_machine() -> None:
    """Asked of the font library itself, as WeasyPrint has it loaded."""
    if lacking():
        pytest.skip(f"this machine lacks {' '.join(lacking())}, so that nothing can be printed")
    code = (
        "import builder.render.paper.pdf; from weasyprint.text.ffi import fontconfig as f; c ="
        " f.FcInitLoadConfigAndFonts(); print(f.FcConfigGetFonts(c, f.FcSetSystem).nfont)"
    )
    done = subprocess.run(
        [sys.executable, "-W", "error", "-c", code],
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    assert (done.stdout, done.stderr) == ("0\n", "")
