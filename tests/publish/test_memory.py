"""A worker's memory is bounded on systems that set no limit to it as well: there it is watched.

macOS is said to refuse RLIMIT_AS with ValueError or OSError (from reports of its users, not tried
on one).
"""

import subprocess
import sys
from pathlib import Path
from shutil import copytree

import pytest

from tests.workspace_edits import ROOT

REFUSED = """
import resource, sys
def refuse(*given):
    raise {error}
resource.setrlimit = refuse
"""
EATS = (
    REFUSED
    + """
import time
from builder.system.memory import is_watched, limit_memory
limit_memory(400)
print(is_watched())
held = []
try:
    while True:
        held.append(bytearray(20_000_000))
        time.sleep(0.02)
except MemoryError:
    print("stopped at", len(held) < 100)
"""
)
PUBLISHES = (
    REFUSED
    + """
import builder.publish.workers.crew
from builder.cli import main
builder.publish.workers.crew._START = -1000.0  # processes are started for two builds as well
if __name__ == "__main__":
    main()
"""
)
ERRORS = ["ValueError('current limit exceeds maximum limit')", "OSError(22, 'Invalid argument')"]


@pytest.mark.parametrize("error", ERRORS)
def test_where_the_limit_is_refused_memory_is_watched(error: str) -> None:
    words = [sys.executable, "-c", EATS.format(error=error)]
    done = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=False, timeout=120)
    assert (done.stdout.split("\n")[:2], done.stderr) == (["True", "stopped at True"], "")


@pytest.mark.parametrize("error", ERRORS)
def test_where_the_limit_is_refused_all_is_published_and_it_is_said_once(
    tmp_path: Path, error: str
) -> None:
    """A spawned worker runs the script's top anew, so that the limit is refused there as well."""
    for name in ("shelf", "pipit", "curlew"):
        copytree(ROOT / "builds" / name, tmp_path / "builds" / name)
    script = tmp_path / "refuses.py"
    script.write_text(PUBLISHES.format(error=error), "utf-8")
    words = [
        sys.executable,
        str(script),
        "publish",
        "--no-pdf",
        "--workers",
        "2",
        "--workspace",
        str(tmp_path),
    ]
    done = subprocess.run(
        words,
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
        timeout=300,
        env={"PYTHONPATH": str(ROOT)},
    )
    assert done.returncode == 0, done.stderr
    assert "2 builds published" in done.stdout
    assert done.stderr.count("sets no limit to the memory") == 1 and "Traceback" not in done.stderr
