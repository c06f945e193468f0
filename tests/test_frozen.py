"""Values that pass between stages are not changed: by the type checker always, at run time in
development mode.
"""

import os
import subprocess
import sys
from pathlib import Path
from shutil import copytree

from builder.compute.figures.figure import constant
from builder.pages.blocks import Span

_REFUSED = """
from dataclasses import FrozenInstanceError
from builder.compute.figures.figure import constant
from builder.pages.blocks import Span
for value, field in ((Span("a"), "text"), (constant("k", "K", 1.0, "m"), "value")):
    try:
        setattr(value, field, "b")
    except FrozenInstanceError:
        print("refused")
"""


def _developing(root: Path, *words: str) -> "subprocess.CompletedProcess[str]":
    environment = {**os.environ, "PYTHONPATH": str(root)}
    command = [sys.executable, "-X", "dev", "-W", "ignore", *words]
    return subprocess.run(
        command, capture_output=True, text=True, check=False, env=environment, cwd=root
    )


def test_development_mode_refuses_a_change(root: Path) -> None:
    assert _developing(root, "-c", _REFUSED).stdout == "refused\nrefused\n"


def test_nothing_is_changed_while_the_demo_is_published(
    root: Path, tmp_path: Path, published_demo: tuple[Path, object]
) -> None:
    """All of it with values that refuse any change, and the same bytes come out."""
    copytree(root / "builds", tmp_path / "builds")
    done = _developing(
        root, "-m", "builder", "publish", "--no-pdf", "--workers", "1", "--workspace", str(tmp_path)
    )
    assert done.returncode == 0, done.stderr[-2000:]
    site = published_demo[0] / "site"
    pages = {p.relative_to(site) for p in site.rglob("*.html")}
    assert len(pages) > 50
    assert pages == {p.relative_to(tmp_path / "site") for p in (tmp_path / "site").rglob("*.html")}
    assert all((site / p).read_bytes() == (tmp_path / "site" / p).read_bytes() for p in pages)


def test_they_are_equal_by_value_and_a_figure_is_itself_alone() -> None:
    assert Span("a", "#b") == Span("a", "#b")
    assert hash(Span("a", "#b")) == hash(Span("a", "#b"))
    assert len({Span("a"), Span("a"), Span("b")}) == 2
    one, other = constant("k", "K", 1.0, "m"), constant("k", "K", 1.0, "m")
    assert one != other
    assert len({one, other}) == 2
