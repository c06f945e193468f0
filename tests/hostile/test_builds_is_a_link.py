"""`builds` of a workspace that came from a stranger: nothing outside the workspace is read."""

from pathlib import Path

from builder.load.files import load
from builder.pipeline.check import check_workspace


def _builds(at: Path) -> Path:
    (at / "a").mkdir(parents=True)
    (at / "a" / "build.yaml").write_text("title: Secret\n", "utf-8")
    return at


def test_a_link_out_of_the_workspace_is_said_and_not_followed(tmp_path: Path) -> None:
    workspace = tmp_path / "workspace"
    workspace.mkdir()
    (workspace / "builds").symlink_to(_builds(tmp_path / "private"))
    loaded = load(workspace)
    assert [f.code for f in loaded.findings] == ["data/unreadable"]
    assert "leads out of the workspace" in loaded.findings[0].message
    assert not loaded.documents
    assert not loaded.names
    assert not check_workspace(workspace).sheets


def test_a_link_to_a_folder_of_the_workspace_is_read(tmp_path: Path) -> None:
    _builds(tmp_path / "drafts")
    (tmp_path / "builds").symlink_to("drafts")
    assert list(load(tmp_path).documents) == ["a/build.yaml"]


def test_a_link_to_itself_is_said(tmp_path: Path) -> None:
    (tmp_path / "builds").symlink_to("builds")
    assert len(load(tmp_path).findings) == 1


def test_a_workspace_that_is_a_link_itself_is_read(tmp_path: Path) -> None:
    _builds(tmp_path / "real" / "builds")
    (tmp_path / "linked").symlink_to("real")
    assert list(load(tmp_path / "linked").documents) == ["a/build.yaml"]
