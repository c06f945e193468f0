"""A copy of the demo workspace with one edit in one file, for tests that seed a fault."""

import re
from pathlib import Path
from shutil import copytree

from builder.pipeline.check import Checked, check_workspace

ROOT = Path(__file__).resolve().parent.parent


def edited(tmp_path: Path, file: str, old: str, new: str) -> Path:
    """A workspace in which `old`, which must stand there, became `new` in builds/<file>."""
    copytree(ROOT / "builds", tmp_path / "builds")
    path = tmp_path / "builds" / file
    text = path.read_text("utf-8")
    assert old in text, f"{file} does not hold {old!r}"
    path.write_text(text.replace(old, new, 1), "utf-8")
    return tmp_path


def without_a_camera_known(workspace: Path) -> None:
    """Edits a copy of the demo: the camera of the Dippers and Redshank has neither weight nor
    price, and the Dipper was
    never weighed; so its sums leave something out, and so does Redshank's price."""
    shelf = workspace / "builds" / "shelf" / "video.yaml"
    before, name, after = shelf.read_text("utf-8").partition("\ncam-weir:\n")
    entry, line_end, rest = after.partition("\n\n")
    kept = [x for x in entry.split("\n") if not x.startswith(("  mass:", "  price:"))]
    assert len(kept) == len(entry.split("\n")) - 2, (
        "the camera has no weight or no price to take away"
    )
    shelf.write_text(before + name + "\n".join(kept) + line_end + rest, "utf-8")
    path = workspace / "builds" / "dipper" / "build.yaml"
    head, weighed, tail = path.read_text("utf-8").partition("\nweighed:\n")
    assert weighed, "the Dipper has no weighed weights to take away"
    path.write_text(head + "\n" + tail.partition("\n\n")[2], "utf-8")


def judged_after(tmp_path: Path, build: str, file: str, old: str, new: str) -> Checked:
    """One build of the edited workspace, judged."""
    return check_workspace(edited(tmp_path, file, old, new), (build,))


def pipit_alone(home: Path) -> Path:
    """A workspace with the smallest demo build alone, which is put beside no other; its folder."""
    for name in ("shelf", "pipit"):
        copytree(ROOT / "builds" / name, home / "builds" / name)
    settings = (ROOT / "builds" / "site.yaml").read_text("utf-8")
    settings = re.sub(r"(?ms)^compare:.*?(?=^\S|\Z)", "", settings)
    (home / "builds" / "site.yaml").write_text(settings, "utf-8")
    return home / "builds" / "pipit"
