"""What the preview's terminal says after each save: what is wrong, and that it was mended."""

from pathlib import Path
from shutil import copytree, rmtree

import pytest

from builder.cli.preview_words import Terminal
from builder.pipeline.preview.preview import Preview
from tests.workspace_edits import ROOT

pytestmark = pytest.mark.slow  # takes long

FEW = ("dipper", "redshank", "curlew", "dipper-light")


@pytest.fixture
def source(tmp_path: Path) -> Path:
    copytree(
        ROOT / "builds", tmp_path / "builds", ignore=lambda _, names: [n for n in names if n in FEW]
    )
    site = tmp_path / "builds" / "site.yaml"
    site.write_text(site.read_text("utf-8").partition("\ncompare:")[0] + "\n", "utf-8")
    return tmp_path / "builds" / "pipit" / "build.yaml"


def _saves(source: Path, text: str, terminal: Terminal) -> None:
    source.write_text(text, "utf-8")
    terminal.tell(terminal.preview.refresh())


def test_a_mended_mistake_is_said_also_where_the_build_is_as_it_was(
    source: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    terminal = Terminal(Preview(source.parents[2]))
    text = source.read_text("utf-8")
    _saves(source, text, terminal)
    assert "mended" not in "".join(capsys.readouterr())
    _saves(source, text.replace("title:", "titel:", 1).replace("summary:", "sumary:", 1), terminal)
    said = capsys.readouterr()
    assert said.err.count("mistake [") == 3  # two unknown keys, and the title that is missing
    assert "mended" not in said.out
    _saves(source, text.replace("summary:", "sumary:", 1), terminal)
    assert capsys.readouterr().out == "pipit/build.yaml: 2 mistakes fixed, 1 left.\n"
    _saves(source, text, terminal)
    said = capsys.readouterr()
    assert said.out == "pipit/build.yaml: fixed; it can be read again.\n"
    assert said.err == ""
    _saves(source, text, terminal)
    assert capsys.readouterr().out == ""  # said once


def test_a_broken_file_that_is_taken_away_was_not_mended(
    source: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    terminal = Terminal(Preview(source.parents[2]))
    _saves(source, "title: [", terminal)
    assert "data/syntax" in capsys.readouterr().err
    rmtree(source.parent)
    terminal.tell(terminal.preview.refresh())
    assert "mended" not in capsys.readouterr().out


def test_a_mended_fault_is_named(source: Path, capsys: pytest.CaptureFixture[str]) -> None:
    terminal = Terminal(Preview(source.parents[2]))
    text = source.read_text("utf-8")
    right = "to: board.5V"
    assert right in text
    _saves(source, text.replace(right, "to: board.GND", 1), terminal)
    assert "fault [wiring/" in capsys.readouterr().err
    _saves(source, text, terminal)
    out = capsys.readouterr().out
    assert out.startswith("pipit: 0 faults, ") and "; fixed: " in out and "wiring/" in out
