"""Small made-up workspaces for tests, written as a person would write them and read by the project
itself.
"""

import tempfile
from collections.abc import Mapping
from pathlib import Path

from builder.load.files import load
from builder.model.build import Build
from builder.model.read.workspace import Workspace, read_workspace

FRAME = "frame: {kind: frame, name: Frame, mass: {measured: 60 g, scale: 0.1 g}}"


def workspace(shelf: str, builds: Mapping[str, str], site: str = "title: Test") -> Workspace:
    """A workspace read from a folder that is gone afterwards. AssertionError if anything in it is a
    mistake.
    """
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder) / "builds"
        (root / "shelf").mkdir(parents=True)
        (root / "site.yaml").write_text(site, "utf-8")
        (root / "shelf" / "parts.yaml").write_text(shelf, "utf-8")
        for name, text in builds.items():
            (root / name).mkdir()
            (root / name / "build.yaml").write_text(text, "utf-8")
        made = read_workspace(load(Path(folder)))
    assert not made.findings, [f.message for f in made.findings]
    return made


def one_build(shelf: str, build: str, site: str = "title: Test") -> Build:
    """The only build of such a workspace."""
    return workspace(shelf, {"test": build}, site).builds["test"]
