"""A copy of the demo workspace with one edit in one file, for tests that seed a fault."""

from pathlib import Path
from shutil import copytree

from builder.pipeline.check import Checked, check

ROOT = Path(__file__).resolve().parent.parent


def edited(tmp_path: Path, file: str, old: str, new: str) -> Path:
    """A workspace in which `old`, which must stand there, became `new` in builds/<file>."""
    copytree(ROOT / "builds", tmp_path / "builds")
    path = tmp_path / "builds" / file
    text = path.read_text("utf-8")
    assert old in text, f"{file} does not hold {old!r}"
    path.write_text(text.replace(old, new, 1), "utf-8")
    return tmp_path


def judged_after(tmp_path: Path, build: str, file: str, old: str, new: str) -> Checked:
    """One build of the edited workspace, judged."""
    return check(edited(tmp_path, file, old, new), (build,))
