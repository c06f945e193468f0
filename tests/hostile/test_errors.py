"""What the command says and with which exit status: 0 done, 1 findings that stop it, 2 wrong use;
never a traceback.
"""

import json
import os
import subprocess
import sys
from collections.abc import Callable
from importlib import import_module
from pathlib import Path

import pytest
from click.testing import CliRunner

from builder.cli.main import cli
from builder.cli.publish import said_of
from builder.load.characters import unfit
from builder.model.build import Build
from builder.pipeline import build_jobs
from builder.pipeline.published import Published
from builder.publish.swap import PublishError
from tests.workspace_edits import ROOT

Publish = Callable[[Path], Published]
checking = import_module("builder.pipeline.check")  # the package gives its function by this name


def run(*words: str, env: dict[str, str] | None = None) -> subprocess.CompletedProcess[str]:
    made = subprocess.run(
        [sys.executable, "-m", "builder", *words],
        capture_output=True,
        text=True,
        timeout=120,
        cwd=ROOT,
        check=False,
        env={**os.environ, **(env or {})},
    )
    assert "Traceback" not in made.stderr + made.stdout
    for line in (made.stdout + made.stderr).split("\n"):
        assert unfit(line) is None, line
    return made


def test_exit_status(workspace: Path) -> None:
    there = ("--workspace", str(workspace))
    assert run("check", "pipit", *there).returncode == 0
    assert run("check", "pippit", *there).returncode == 2
    assert run("publish", "--no-such-option", *there).returncode == 2
    assert run("explain", "data/no-such").returncode == 2
    file = workspace / "builds" / "pipit" / "build.yaml"
    file.write_text(file.read_text() + "tittle: x\n")
    assert run("check", *there).returncode == 1
    found = run("publish", "--no-pdf", *there)
    assert (
        found.returncode == 1
        and "pipit: not published now; its last published pages are kept" in found.stderr
    )
    assert run("check", "--workspace", str(workspace / "nowhere")).returncode == 1


def test_names_that_steer_a_terminal_are_shown_by_code_point(workspace: Path) -> None:
    for name in ("a\u202eb", "red\x1b[31m", "half\udcff"):
        folder = workspace / "builds" / name
        folder.mkdir()
        (folder / "build.yaml").write_text("title: T\n")
        (workspace / "builds" / "shelf" / f"{name}.yaml").write_text("x: {kind: tool, name: T}\n")
    there = ("--workspace", str(workspace))
    found = run("check", *there)
    assert (
        found.returncode == 1
        and "\\u{202e}" in found.stderr
        and "\\u{1b}" in found.stderr
        and "\\u{dcff}" in found.stderr
    )
    listed = json.loads(run("check", "--json", *there).stdout)
    assert {f["code"] for f in listed if f["severity"] == "mistake"} == {"data/bad-name"}
    found = run("publish", "--no-pdf", *there)
    assert found.returncode == 1 and "2 builds published" in found.stdout
    assert run("check", "a\u202eb", *there).returncode in (1, 2)


def test_an_error_inside_says_what_to_report_and_keeps_the_site(workspace: Path) -> None:
    before = (workspace / "site" / ".benchleaf.json").read_bytes()
    script = (
        "import sys\nfrom builder.pipeline import publish\nfrom builder.cli import main\n"
        "def broken(*_): raise KeyError('\\x1b[31mred')\npublish._finish = broken\nmain()"
    )
    words = [
        sys.executable,
        "-c",
        script,
        "publish",
        "--no-pdf",
        "--workers",
        "1",
        "--workspace",
        str(workspace),
    ]
    made = subprocess.run(words, capture_output=True, text=True, timeout=60, cwd=ROOT, check=False)
    assert made.returncode == 1 and "Traceback" not in made.stderr and "\x1b" not in made.stderr
    assert (
        "an error inside Benchleaf" in made.stderr
        and "KeyError" in made.stderr
        and "Please report" in made.stderr
    )
    assert (workspace / "site" / ".benchleaf.json").read_bytes() == before


TEMPLATES = {
    "not as templates are written": (b"{% if %}", "line 1"),
    "not UTF-8": (b"\xff\xfe", "cannot be read"),
}


@pytest.mark.parametrize("how", TEMPLATES)
def test_a_template_that_cannot_be_used_is_said(
    workspace: Path, publishing: Publish, how: str
) -> None:
    content, words = TEMPLATES[how]
    (workspace / "templates").mkdir()
    (workspace / "templates" / "page.html").write_bytes(content)
    with pytest.raises(PublishError, match=f"templates/page.html.*{words}"):
        publishing(workspace)


def test_a_template_that_is_a_pipe_is_not_waited_for(workspace: Path, publishing: Publish) -> None:
    (workspace / "templates").mkdir()
    os.mkfifo(workspace / "templates" / "page.html")
    with pytest.raises(PublishError, match="no plain file"):
        publishing(workspace)


def test_a_template_that_names_what_is_not_there_keeps_the_pages(
    workspace: Path, publishing: Publish
) -> None:
    before = (workspace / "site" / "pipit" / "index.html").read_bytes()
    (workspace / "templates").mkdir()
    (workspace / "templates" / "sheet.html").write_text("{{ page.titel }}")
    done = publishing(workspace)
    assert sorted(done.kept) == ["curlew", "pipit"] and not done.errors
    assert {f.code for f in done.findings if f.severity == "mistake"} == {"data/template"}
    assert (workspace / "site" / "pipit" / "index.html").read_bytes() == before


def _broken_for(build: str, real: Callable[..., object]) -> Callable[..., object]:
    def broken(judged: Build, **how: bool) -> object:
        if judged.name == build:
            raise ZeroDivisionError("division of \x1b[31mred")
        return real(judged, **how)

    return broken


def test_an_error_inside_one_build_ends_no_check_of_the_others(
    workspace: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(checking, "judged_alone", _broken_for("curlew", checking.judged_alone))
    made = CliRunner().invoke(cli, ["check", "--workspace", str(workspace)])
    assert made.exit_code == 1 and isinstance(made.exception, SystemExit)
    said = [line for line in made.stderr.split("\n") if "error inside" in line]
    problem = "curlew: ZeroDivisionError: division of \\u{1b}[31mred. Please report it."
    assert said == [f"benchleaf: an error inside Benchleaf while checking {problem}"]
    assert "pipit: 0 faults" in made.stdout and "curlew:" not in made.stdout
    listed = CliRunner().invoke(cli, ["check", "--json", "--workspace", str(workspace)])
    assert (
        listed.exit_code == 1
        and json.loads(listed.stdout) is not None
        and "curlew" in listed.stderr
    )
    assert CliRunner().invoke(cli, ["check", "pipit", "--workspace", str(workspace)]).exit_code == 0


def test_an_error_inside_one_build_is_said_once_and_the_others_are_published(
    workspace: Path, publishing: Publish, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(build_jobs, "judged", _broken_for("curlew", checking.judged))
    file = workspace / "builds" / "site.yaml"
    file.write_text(file.read_text("utf-8").replace("title: ", "title: The ", 1), "utf-8")
    done = publishing(workspace)
    assert done.published == ("pipit",) and done.kept == ("curlew",)
    said = said_of(done)
    assert said.status == 1
    assert [note for note in said.notes if "error inside" in note] == [
        "benchleaf: an error inside Benchleaf while making build:curlew: ZeroDivisionError:"
        " division of \\u{1b}[31mred. Please report it."
    ]
