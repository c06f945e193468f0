"""Python without docstrings is refused in one sentence; without asserts alone, all is as ever."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

# As a module, and as the script that an installed package has.
AS_MODULE, AS_SCRIPT = ("-m", "builder"), ("-c", "from builder.cli import main; main()")


def _said(
    root: Path, words: tuple[str, ...], **environment: str
) -> "subprocess.CompletedProcess[str]":
    plain = {k: v for k, v in os.environ.items() if k != "PYTHONOPTIMIZE"}
    own = {**plain, "PYTHONPATH": str(root), **environment}
    return subprocess.run(
        [sys.executable, *words], capture_output=True, text=True, check=False, env=own, cwd=root
    )


@pytest.mark.parametrize("how", [AS_MODULE, AS_SCRIPT], ids=["module", "script"])
@pytest.mark.parametrize(
    "command",
    [("check", "pipit"), ("--help",), ("explain", "power/motor-cells")],
    ids=lambda c: c[0],
)
def test_without_docstrings_it_says_so_and_does_nothing(
    root: Path, how: tuple[str, ...], command: tuple[str, ...]
) -> None:
    done = _said(root, (*how, *command), PYTHONOPTIMIZE="2")
    assert (done.returncode, done.stdout) == (2, "")
    (line,) = done.stderr.splitlines()
    assert line.startswith("benchleaf: ")
    assert "PYTHONOPTIMIZE" in line and "-OO" in line


def test_the_option_is_refused_as_the_variable_is(root: Path) -> None:
    done = _said(root, ("-OO", *AS_MODULE, "check", "pipit"))
    assert (done.returncode, len(done.stderr.splitlines())) == (2, 1)


def test_without_asserts_it_judges_the_same(root: Path) -> None:
    plain, without = (
        _said(root, (*AS_MODULE, "check", "pipit", "--json"), **e)
        for e in ({}, {"PYTHONOPTIMIZE": "1"})
    )
    assert without.stdout
    assert (without.returncode, without.stdout, without.stderr) == (
        plain.returncode,
        plain.stdout,
        plain.stderr,
    )
