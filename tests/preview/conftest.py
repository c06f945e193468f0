"""A copy of the demo workspace, and a preview of it that is served from this process."""

from collections.abc import Iterator
from pathlib import Path
from shutil import copytree

import pytest

from builder.cli.preview import running
from builder.cli.preview_server import PreviewServer
from builder.pipeline.preview.preview import Preview
from tests.workspace_edits import ROOT


@pytest.fixture(scope="module")
def workspace(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("workspace")
    copytree(ROOT / "builds", folder / "builds")
    return folder


@pytest.fixture(scope="module")
def server(workspace: Path) -> Iterator[PreviewServer]:
    with running(PreviewServer(Preview(workspace), 0)) as served:
        yield served
