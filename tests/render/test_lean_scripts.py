"""Scripts are published without indentation, without types, and without comments of their own line, and
say the same.
"""

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
    plain = [_without_types(line).strip() for line in source]
    assert published == [line for line in plain if line and not line.startswith("//")]


def _without_types(line: str) -> str:
    """Types begin '/** @', and stand where a blank may: before a name or a bracket."""
    while "/** @" in line:
        before, _, rest = line.partition("/** @")
        assert not before or before[-1] in " (\t!", line
        line = before + rest.partition("*/")[2].removeprefix(" ")
    return line


def test_words_are_left_alone() -> None:
    """A text with two slashes is no comment, and what is not a script of ours is not touched."""
    assert lean_script(b'  // said\n\n  go("//a");\n') == b'go("//a");\n'
    assert lean_script(b"/** @type {A} */\nlet a = /** @type {B} */ (b);\n") == b"let a = (b);\n"


def test_a_persons_own_script_is_not_touched(tmp_path: Path) -> None:
    own = b"  // mine\n  go();\n"
    (tmp_path / "own.js").write_bytes(own)
    assert asset_files(tmp_path)["assets/own.js"] == own
