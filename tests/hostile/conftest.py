"""A small published workspace that a test may spoil: two demo builds and the shelf. All of it is
invented.
"""

from collections.abc import Callable
from pathlib import Path
from shutil import copytree

import pytest

from builder.options import PublishOptions
from builder.pipeline.publish import publish_site
from builder.pipeline.published import Published
from tests.workspace_edits import ROOT

Publish = Callable[[Path], Published]


@pytest.fixture(scope="session")
def publishing() -> Publish:
    """Publishes a workspace in this process, without PDFs."""
    return lambda workspace: publish_site(PublishOptions(workspace, pdf=False, workers=1))


@pytest.fixture(scope="session")
def once(tmp_path_factory: pytest.TempPathFactory, publishing: Publish) -> Path:
    """The workspace as it was published once. Nothing in it may be changed."""
    folder = tmp_path_factory.mktemp("once")
    for name in ("shelf", "pipit", "curlew"):
        copytree(ROOT / "builds" / name, folder / "builds" / name)
    settings = (ROOT / "builds" / "site.yaml").read_text("utf-8")
    kept = [line for line in settings.splitlines() if not line.startswith(("compare:", "  - ["))]
    (folder / "builds" / "site.yaml").write_text("\n".join(kept) + "\n", "utf-8")
    assert len(publishing(folder).published) == 2
    return folder


@pytest.fixture
def workspace(once: Path, tmp_path: Path) -> Path:
    """A copy of the published workspace."""
    copytree(once, tmp_path, dirs_exist_ok=True)
    return tmp_path
