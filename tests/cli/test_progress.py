"""The bars count the pages, PDFs and pictures that a publish really makes, and stay silent where nobody
looks.
"""

import io
import os
import pty
import subprocess
import sys
from pathlib import Path
from shutil import copytree, ignore_patterns

import pytest

from builder.cli.progress import Bars
from builder.options import PublishOptions
from builder.pipeline.publish import publish_site
from tests.workspace_edits import ROOT


def _workspace(tmp_path: Path) -> Path:
    copytree(
        ROOT / "builds",
        tmp_path / "builds",
        ignore=ignore_patterns("curlew", "redshank", "pipit", "turnstone"),
    )
    return tmp_path


def test_pages_and_pdfs_are_counted_as_they_are_made(tmp_path: Path) -> None:
    workspace = _workspace(tmp_path)
    bars = Bars(io.StringIO())
    publish_site(PublishOptions(workspace, workers=1), bars.tell)
    chapters = set((workspace / "site").glob("*/guide/*/index.html"))  # with their guide, as one
    assert chapters
    pages = [p for p in (workspace / "site").rglob("*.html") if p not in chapters]
    pdfs = list((workspace / "site").rglob("*.pdf"))
    pictures = [p for p in (workspace / "site").rglob("*.svg") if p.parent.name != "assets"]
    counted = {"pages": len(pages), "PDFs": len(pdfs), "pictures": len(pictures)}
    assert pictures and bars.done == bars.all == counted
    assert (len(pdfs), len(pages) > 40) == (6, True)


def test_bars_are_for_terminals_only(tmp_path: Path) -> None:
    workspace = _workspace(tmp_path)
    command = [
        sys.executable,
        "-m",
        "builder",
        "publish",
        "--no-pdf",
        "--workspace",
        str(workspace),
    ]
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "TERM": "xterm"}
    done = subprocess.run(command, check=True, capture_output=True, env=environment, timeout=300)
    assert b"pages" not in done.stderr
    assert b"\x1b" not in done.stdout + done.stderr
    try:
        ours, theirs = pty.openpty()
    except OSError as error:
        pytest.skip(f"this machine gives no terminal to look at bars: {error}")
    with subprocess.Popen(
        [*command, "--everything"], stdout=subprocess.PIPE, stderr=theirs, env=environment
    ) as process:
        os.close(theirs)
        seen = b""
        try:
            while piece := os.read(ours, 4096):
                seen += piece
        except OSError:  # the other end is closed
            pass
        os.close(ours)
        assert process.wait(300) == 0
    assert b"pages" in seen
