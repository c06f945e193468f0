"""The hook for commits runs as its manifest says, and judges what the commit touches."""

import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

from tests.workspace_edits import ROOT, edited

HOOK = yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text("utf-8"))[0]


def _run(workspace: Path, *files: str) -> subprocess.CompletedProcess[str]:
    """As pre-commit does: the entry, then the staged files that match; here through the interpreter
    of the tests.
    """
    taken = [f for f in files if re.search(HOOK["files"], f)]
    words = shlex.split(HOOK["entry"])
    assert words[0] == "benchleaf"
    command = [sys.executable, "-m", "builder", *words[1:], *taken]
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    return subprocess.run(
        command,
        check=False,
        capture_output=True,
        text=True,
        cwd=workspace,
        env=environment,
        timeout=120,
    )


def test_the_manifest_has_what_the_format_requires() -> None:
    """pre-commit's documentation, 'Creating new hooks': id, name, entry and language are required."""
    assert {"id", "name", "entry", "language"} <= HOOK.keys()
    assert HOOK["require_serial"] is True  # one run judges all files, not one run for each few


@pytest.mark.parametrize(
    ("file", "taken"),
    [
        ("builds/dipper/build.yaml", True),
        ("builds/shelf/motors.yaml", True),
        ("builds/site.yaml", True),
        ("builds/dipper/wedge.svg", True),
        ("README.md", False),
        ("site/index.html", False),
    ],
)
def test_it_runs_for_source_files_only(file: str, taken: bool) -> None:
    assert bool(re.search(HOOK["files"], file)) is taken


def test_a_sound_build_passes(root: Path) -> None:
    done = _run(root, "builds/dipper/build.yaml", "README.md")
    assert done.returncode == 0, done.stderr
    assert [
        line.split(":")[0] for line in done.stdout.splitlines() if not line.startswith(" ")
    ] == ["dipper"]


def test_a_mistake_stops_the_commit(tmp_path: Path) -> None:
    workspace = edited(tmp_path, "pipit/build.yaml", "title:", "titel:")
    done = _run(workspace, "builds/pipit/build.yaml")
    assert done.returncode == 1
    assert "pipit/build.yaml:" in done.stderr
    assert "Did you mean 'title'?" in done.stderr


def test_a_picture_means_its_build_and_the_shelf_means_all(tmp_path: Path) -> None:
    workspace = edited(tmp_path, "pipit/build.yaml", "title:", "titel:")
    assert _run(workspace, "builds/redshank/cradle.svg").returncode == 0
    assert _run(workspace, "builds/redshank/cradle.svg", "builds/shelf/motors.yaml").returncode == 1
    assert _run(workspace, "builds/site.yaml").returncode == 1
