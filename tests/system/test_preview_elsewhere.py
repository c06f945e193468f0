"""`preview` on the stand-ins for a system without POSIX and for macOS: it serves, a saved file is
seen, and it ends when it is interrupted.
"""

import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from shutil import copytree
from urllib.request import urlopen

import pytest

from tests.workspace_edits import ROOT

pytestmark = pytest.mark.slow  # takes long

_PATIENCE = 120  # seconds: a busy machine


@contextmanager
def _previewed(module: str, workspace: Path) -> Iterator[tuple[subprocess.Popen[str], str]]:
    """A preview that runs, and the address that it says."""
    command = [sys.executable, "-u", "-m", *module.split(), "preview", "--port", "0"]
    with subprocess.Popen(
        [*command, "--workspace", str(workspace)],
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        encoding="utf-8",
        errors="replace",
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    ) as running:
        assert running.stdout is not None
        said = ""
        try:
            for line in running.stdout:
                said += line
                if found := re.search(r"Preview at (http://127\.0\.0\.1:\d+/)", line):
                    yield running, found[1]
                    return
            pytest.fail(said)
        finally:
            running.kill()


def _page(address: str) -> str:
    with urlopen(address, timeout=_PATIENCE) as answer:
        return str(answer.read().decode("utf-8"))


@pytest.mark.parametrize(
    "module", ["tests.system.unlike_posix cp1252", "tests.system.unlike_macos"]
)
def test_a_saved_file_is_seen_and_an_interrupt_ends_it(tmp_path: Path, module: str) -> None:
    for name in ("shelf", "pipit"):
        copytree(ROOT / "builds" / name, tmp_path / "builds" / name)
    source = tmp_path / "builds" / "pipit" / "build.yaml"
    with _previewed(module, tmp_path) as (running, address):
        assert "<h1>Pipit" in _page(f"{address}pipit/")
        text = source.read_text("utf-8")
        assert "title: Pipit" in text
        source.write_text(text.replace("title: Pipit", "title: Otter"), "utf-8")
        until = time.monotonic() + _PATIENCE
        while "<h1>Otter" not in _page(f"{address}pipit/"):
            assert time.monotonic() < until
            time.sleep(0.2)
        running.send_signal(signal.SIGINT)
        rest = running.stdout.read() if running.stdout is not None else ""
        assert running.wait(_PATIENCE) == 0, rest
    assert "The preview has ended." in rest
    assert "error inside" not in rest
    assert not (tmp_path / "site").exists()
