"""Every page of the demo site against the Nu HTML checker, the W3C's validator (npm package
vnu-jar).
"""

import json
import shutil
import subprocess
from pathlib import Path

import pytest

from builder.pipeline.published import Published

JAR = Path(__file__).resolve().parents[2] / ".venv" / "checker" / "html" / "vnu.jar"


def checker() -> list[str]:
    """How it is called; where it is not at hand the test is left out and says why."""
    java = shutil.which("java")
    if java is None:
        pytest.skip("no Java on this machine, on which the Nu HTML checker runs")
    if not JAR.is_file():
        pytest.skip(
            "the Nu HTML checker is not in .venv/checker: `make test` fetches it where npm is at"
            " hand"
        )
    return [java, "-jar", str(JAR), "--format", "json", "--stdout"]


def complaints(argv: list[str], *paths: Path) -> list[str]:
    done = subprocess.run(
        [*argv, *map(str, paths)], capture_output=True, encoding="utf-8", check=False
    )
    messages = json.loads(done.stdout)["messages"]
    return [
        f"{m.get('url')}:{m.get('lastLine')}: {m['message']}"
        for m in messages
        if m["type"] != "info"
    ]


def test_the_checker_finds_a_seeded_error(tmp_path: Path) -> None:
    page = tmp_path / "page.html"
    page.write_text(
        '<!doctype html><html lang="en"><title>x</title><p><div id="a"></div><b id="a">x', "utf-8"
    )
    found = " ".join(complaints(checker(), page))
    assert "Duplicate ID" in found
    assert "Unclosed element" in found


def test_no_page_of_any_kind_holds_an_error(published_demo: tuple[Path, Published]) -> None:
    pages = sorted((published_demo[0] / "site").rglob("*.html"))
    kinds = {p.relative_to(published_demo[0] / "site").parts[0] for p in pages}
    assert {"dipper", "compare", "parts", "rules", "index.html", "404.html"} <= kinds
    assert complaints(checker(), *pages) == []
