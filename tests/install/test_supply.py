"""What is shipped is known: the licences stand in a file that is up to date, and the lock pins it all by hash."""

import subprocess
import sys

from tests.workspace_edits import ROOT


def _shipped(option: str) -> str:
    words = [sys.executable, str(ROOT / ".ci" / "shipped.py"), option]
    return subprocess.run(words, capture_output=True, text=True, check=True).stdout


def test_the_list_of_licences_is_up_to_date() -> None:
    text = _shipped("--licences")
    assert text == (ROOT / ".ci" / "licences.md").read_text("utf-8"), "run `make licences`"
    assert "not said" not in text and "| weasyprint | " in text and "| pytest |" not in text


def test_all_that_is_shipped_is_pinned_by_hash() -> None:
    blocks = [b for b in _shipped("--lock").replace(" \\\n", " ").split("\n") if b]
    names = {line.split(" | ")[0].strip("| ") for line in _shipped("--licences").split("\n") if line.startswith("| ")}
    assert {b.split("==")[0].split("[")[0] for b in blocks} == names - {"package"}
    assert all("==" in b and "--hash=sha256:" in b for b in blocks)
