"""Scripts are published without indentation and without comments of their own line, and say the same."""

from pathlib import Path

import pytest

from builder.render.assets import asset_files, lean_script
from builder.render.html.page import template_folder

SCRIPTS = sorted((template_folder() / "static").glob("*.js"))


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda s: s.name)
def test_a_script_is_published_line_by_line(script: Path) -> None:
    """What is left out could never be read: no text reaches over a line (ECMA-262, 12.9.4 and
    12.9.6: only a template or a line that ends in a backslash does), and no comment opened before.
    """
    source = script.read_text("utf-8").splitlines()
    for line in source:
        assert line.count("`") % 2 == 0, line
        assert not line.endswith("\\"), line
        assert line.count("/*") == line.count("*/"), line
    published = asset_files(None)[f"assets/{script.name}"].decode().splitlines()
    assert published == [s for line in source if (s := line.strip()) and not s.startswith("//")]


def test_words_are_left_alone() -> None:
    """A text with two slashes is no comment, and what is not a script of ours is not touched."""
    assert lean_script(b'  // said\n\n  go("//a");\n') == b'go("//a");\n'


def test_a_persons_own_script_is_not_touched(tmp_path: Path) -> None:
    own = b"  // mine\n  go();\n"
    (tmp_path / "own.js").write_bytes(own)
    assert asset_files(tmp_path)["assets/own.js"] == own
