"""The commands on a stand-in for a system without POSIX (see `unlike_posix`): the same bytes."""

import os
import subprocess
import sys
from pathlib import Path
from shutil import copytree

import pytest

from tests.workspace_edits import ROOT


def _workspace(at: Path) -> Path:
    for name in ("shelf", "pipit"):
        copytree(ROOT / "builds" / name, at / "builds" / name)
    return at


def _site(workspace: Path) -> dict[str, bytes]:
    site = workspace / "site"
    return {
        str(f.relative_to(site)): f.read_bytes() for f in sorted(site.rglob("*")) if f.is_file()
    }


def _run(module: str, *words: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", *module.split(), *words]
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    return subprocess.run(
        command,
        check=False,
        capture_output=True,
        text=True,
        encoding="utf-8",
        errors="replace",
        cwd=ROOT,
        env=environment,
        timeout=300,
    )


def test_what_it_publishes_is_the_same_to_the_byte(tmp_path: Path) -> None:
    here, there = _workspace(tmp_path / "here"), _workspace(tmp_path / "there")
    plain = _run("builder", "publish", "--no-pdf", "--workspace", str(here))
    odd = _run("tests.system.unlike_posix cp1252", "publish", "--no-pdf", "--workspace", str(there))
    assert (plain.returncode, odd.returncode) == (0, 0), odd.stderr
    assert len(_site(here)) > 30
    assert _site(here) == _site(there)


@pytest.mark.parametrize("encoding", ["cp1252", "ascii", "cp437", "utf-8"])
def test_a_console_of_any_code_page_shows_a_remark_without_an_error(
    tmp_path: Path, encoding: str
) -> None:
    _workspace(tmp_path)
    words = ("check", "--workspace", str(tmp_path))
    done = _run(f"tests.system.unlike_posix {encoding}", *words)
    assert done.returncode == 0, done.stderr
    assert "error inside" not in done.stderr
    assert "pipit: 0 faults" in done.stdout + done.stderr


def test_a_build_is_started_and_read_again(tmp_path: Path) -> None:
    _workspace(tmp_path)
    words = ("start", "--workspace", str(tmp_path), "mine")
    done = _run("tests.system.unlike_posix cp1252", *words)
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "builds" / "mine" / "build.yaml").is_file()
    again = _run("tests.system.unlike_posix cp1252", *words)
    assert again.returncode != 0
    assert "error inside" not in again.stderr


def test_links_are_refused_there_too(tmp_path: Path) -> None:
    workspace = _workspace(tmp_path / "workspace")
    (tmp_path / "elsewhere").mkdir()
    (workspace / "site").symlink_to(tmp_path / "elsewhere")
    words = ("publish", "--no-pdf", "--workspace", str(workspace))
    done = _run("tests.system.unlike_posix cp1252", *words)
    assert done.returncode == 1
    assert "`site` is a link" in done.stderr
    assert not list((tmp_path / "elsewhere").iterdir())


ALARM = """
import time
from tests.system.unlike_posix import become
become("utf-8")
from builder.publish.workers.bounded import TooLong, bounded
from builder.system.interrupt import HAS_ALARM
assert not HAS_ALARM
try:
    with bounded(1):
        while True:
            time.sleep(0.01)
except TooLong as error:
    print("stopped after", error.seconds)
time.sleep(1.5)
print("and no more")
"""
EATS = """
import time
from tests.system.unlike_posix import become
become("utf-8")
from builder.system import memory
from builder.system.memory import is_watched, limit_memory
# What Windows would tell is told by this machine, in pages of 4096 bytes.
memory._working_set = lambda: 4096 * int(open("/proc/self/statm").read().split()[1])
limit_memory(300)
assert is_watched()
held = []
try:
    while len(held) < 200:
        held.append(bytearray(20_000_000))
        time.sleep(0.02)
except MemoryError:
    print("stopped")
"""


@pytest.mark.parametrize(
    ("script", "said"), [(ALARM, "stopped after 1\nand no more\n"), (EATS, "stopped\n")]
)
def test_time_and_memory_are_bounded_without_signals(script: str, said: str) -> None:
    command = [sys.executable, "-c", script]
    done = subprocess.run(command, check=False, capture_output=True, text=True, cwd=ROOT)
    assert (done.stdout, done.stderr) == (said, "")
