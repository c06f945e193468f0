"""A starter's part is marked as invented until somebody edits it, and a sheet that rests on one says
so.
"""

from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner

from builder import pipeline
from builder.cli.main import cli
from builder.pages.blocks import Paragraph
from builder.pages.sections.parts import parts

pytestmark = pytest.mark.slow  # takes long


def _says(workspace: Path) -> str:
    sheet = pipeline.check_workspace(workspace).sheets["own"]
    blocks = parts(sheet).blocks
    words = [getattr(s, "text", "") for b in blocks if isinstance(b, Paragraph) for s in b.pieces]
    return next((w for w in words if "rests on invented parts" in w), "")


def test_a_sheet_says_which_parts_are_invented_still(tmp_path: Path) -> None:
    words = ["start", "own", "--size", "3-inch", "--workspace", str(tmp_path)]
    assert CliRunner().invoke(cli, words).exit_code == 0
    files = sorted((tmp_path / "builds/shelf").glob("*.yaml"))
    entries = {k: v for f in files for k, v in yaml.safe_load(f.read_text("utf-8")).items()}
    assert len(entries) > 30
    assert all(entry.get("invented") is True for entry in entries.values())
    said = _says(tmp_path)
    assert "motor" in said.replace(",", " ").split() and "small" in said
    motors = tmp_path / "builds/shelf/motors.yaml"
    text = motors.read_text("utf-8")
    lines = [line for line in text.splitlines(True) if not line.startswith("  invented:")]
    motors.write_text("".join(lines), "utf-8")
    assert "motor" not in _says(tmp_path).replace(",", " ").replace("motor-screw", "").split()
