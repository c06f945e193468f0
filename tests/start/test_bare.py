"""The bare beginning invents nothing, is short, and can be read as it is."""

from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner

from builder import pipeline
from builder.cli.main import cli

pytestmark = pytest.mark.slow  # takes long


def test_the_bare_beginning_is_short_and_invents_nothing(tmp_path: Path) -> None:
    words = ["start", "own", "--size", "bare", "--workspace", str(tmp_path)]
    assert CliRunner().invoke(cli, words).exit_code == 0
    files = sorted(str(p.relative_to(tmp_path)) for p in tmp_path.rglob("*.yaml"))
    assert files == ["builds/own/build.yaml", "builds/site.yaml"]
    text = (tmp_path / "builds/own/build.yaml").read_text("utf-8")
    settings = (tmp_path / "builds/site.yaml").read_text("utf-8")
    assert len(text.splitlines()) + len(settings.splitlines()) < 60
    said = yaml.safe_load(text)
    assert {k: v for k, v in said.items() if v} == {"title": "Own", "status": "planned"}
    assert yaml.safe_load(settings) == {"title": "Our build sheets"}
    checked = pipeline.check_workspace(tmp_path)
    assert not checked.findings and set(checked.sheets) == {"own"}
