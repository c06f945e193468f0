"""The commands on stand-ins for a system without POSIX and for macOS (see `unlike_posix` and
`unlike_macos`): the same bytes.
"""

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


WINDOWS = "tests.system.unlike_posix cp1252"


@pytest.fixture(scope="module")
def published_here(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """What this machine makes of the workspace."""
    workspace = _workspace(tmp_path_factory.mktemp("here"))
    done = _run("builder", "publish", "--no-pdf", "--workspace", str(workspace))
    assert done.returncode == 0, done.stderr
    return _site(workspace)


@pytest.mark.parametrize("module", [WINDOWS, "tests.system.unlike_macos"])
def test_what_it_publishes_is_the_same_to_the_byte(
    tmp_path: Path, published_here: dict[str, bytes], module: str
) -> None:
    there = _workspace(tmp_path)
    odd = _run(module, "publish", "--no-pdf", "--workspace", str(there))
    assert odd.returncode == 0, odd.stderr
    assert len(published_here) > 30
    assert _site(there) == published_here


def test_line_ends_of_windows_in_the_sources_change_no_byte(
    tmp_path: Path, published_here: dict[str, bytes]
) -> None:
    workspace = _workspace(tmp_path)
    for source in (workspace / "builds").rglob("*.yaml"):
        source.write_bytes(source.read_bytes().replace(b"\n", b"\r\n"))
    done = _run("builder", "publish", "--no-pdf", "--workspace", str(workspace))
    assert done.returncode == 0, done.stderr
    assert _site(workspace) == published_here


def test_a_path_of_three_hundred_letters_is_published(
    tmp_path: Path, published_here: dict[str, bytes]
) -> None:
    deep = tmp_path.joinpath(*["a-folder-of-a-long-name"] * 13)
    assert len(str(deep)) > 300
    done = _run("builder", "publish", "--no-pdf", "--workspace", str(_workspace(deep)))
    assert done.returncode == 0, done.stderr
    assert _site(deep) == published_here


def test_a_page_that_a_program_holds_open_keeps_its_build_and_all_else_is_new(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    workspace = _workspace(tmp_path)
    words = ("publish", "--no-pdf", "--workspace", str(workspace))
    assert _run(WINDOWS, *words).returncode == 0
    before = _site(workspace)
    source = workspace / "builds" / "pipit" / "build.yaml"
    source.write_text(source.read_text("utf-8").replace("title: Pipit", "title: Another"), "utf-8")
    monkeypatch.setenv("HELD", str(workspace / "site" / "pipit" / "parts" / "index.html"))
    done = _run(WINDOWS, *words)
    assert done.returncode == 1
    assert "site/pipit/parts/index.html is open in another program" in done.stderr
    assert "error inside" not in done.stderr
    between = _site(workspace)
    assert b"Another" in between["index.html"]
    kept = {path: data for path, data in before.items() if path.startswith("pipit/")}
    assert {path: data for path, data in between.items() if path.startswith("pipit/")} == kept
    assert not [
        e.name for e in workspace.iterdir() if e.name.startswith((".site-next", ".site-old"))
    ]
    monkeypatch.delenv("HELD")
    assert _run(WINDOWS, *words).returncode == 0
    assert b"Another" in _site(workspace)["pipit/parts/index.html"]


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
