"""A stranger's templates: files of a terabyte that hold nothing, code that fails, names and folders
of no use.
"""

import os
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from builder.cli.main import cli

pytestmark = pytest.mark.slow  # takes long

TERABYTE = 2**40


def _published(workspace: Path) -> Result:
    (workspace / "builds").mkdir(exist_ok=True)
    (workspace / "builds" / "site.yaml").write_text("title: Invented\n")
    return CliRunner().invoke(
        cli, ["publish", "--no-pdf", "--workspace", str(workspace)], color=True
    )


@pytest.mark.parametrize("name", ["page.html", "static/a.txt", "static/deep/a.png", "notes.xcf"])
def test_a_file_of_a_terabyte_is_refused_by_its_size(tmp_path: Path, name: str) -> None:
    at = tmp_path / "templates" / name
    at.parent.mkdir(parents=True)
    with at.open("wb") as file:
        file.truncate(TERABYTE)
    result = _published(tmp_path)
    assert result.exit_code == 1
    assert f"templates/{name} is {TERABYTE} bytes long" in result.output
    assert not (tmp_path / "site").exists()
    at.unlink()
    assert _published(tmp_path).exit_code == 0


def test_the_name_of_a_template_steers_no_terminal(tmp_path: Path) -> None:
    (tmp_path / "templates").mkdir()
    (tmp_path / "templates" / "\x1b[2J.html").symlink_to(os.devnull)
    result = _published(tmp_path)
    assert result.exit_code == 1
    assert "\x1b" not in result.output
    assert r"templates/\u{1b}[2J.html is a link" in result.output


@pytest.mark.parametrize(
    "code",
    ["{{ 1/0 }}", "{{ page + 1 }}", '{% include "page.html" %}', '{% extends "page.html" %}'],
)
def test_an_error_of_a_templates_code_is_said_of_the_template(tmp_path: Path, code: str) -> None:
    (tmp_path / "templates").mkdir()
    (tmp_path / "templates" / "page.html").write_text(code)
    result = _published(tmp_path)
    assert result.exit_code == 1
    assert "[data/template] templates/" in result.output
    assert "Please report" not in result.output


def test_a_template_whose_name_is_no_text_stops_nothing(tmp_path: Path) -> None:
    (tmp_path / "templates").mkdir()
    Path(os.fsdecode(os.fsencode(tmp_path) + b"/templates/\xff.html")).write_text("")
    assert _published(tmp_path).exit_code == 0


def test_folders_deeper_than_any_path_are_said(tmp_path: Path) -> None:
    (tmp_path / "templates").mkdir()
    handle = os.open(tmp_path / "templates", os.O_RDONLY)
    for _ in range(20):
        os.mkdir("d" * 250, dir_fd=handle)
        inner = os.open("d" * 250, os.O_RDONLY, dir_fd=handle)
        os.close(handle)
        handle = inner
    os.close(handle)
    result = _published(tmp_path)
    assert result.exit_code == 1
    assert "templates cannot be read: File name too long" in result.output
