"""Workspaces for benchmarks: the same seed gives the same files, and what is made is sane, so that
it is published.
"""

from pathlib import Path

import pytest

from builder.pipeline.check import check_workspace, read
from tests.benchmarks.make_workspace import make_workspace

pytestmark = pytest.mark.slow  # takes long


def _files(folder: Path) -> dict[str, bytes]:
    return {
        p.relative_to(folder).as_posix(): p.read_bytes()
        for p in sorted(folder.rglob("*"))
        if p.is_file()
    }


def test_the_same_seed_gives_the_same_files_and_another_seed_others(tmp_path: Path) -> None:
    first, second, other = (
        _files(make_workspace(tmp_path / name, 9, seed))
        for name, seed in (("a", 1), ("b", 1), ("c", 2))
    )
    assert first == second
    assert first != other


def test_a_build_is_the_same_in_a_workspace_of_any_size(tmp_path: Path) -> None:
    small, large = (
        _files(make_workspace(tmp_path / "a", 5)),
        _files(make_workspace(tmp_path / "b", 60)),
    )
    builds = [p for p in small if p.endswith("build.yaml")]
    assert len(builds) == 5
    assert [large[p] for p in builds] == [small[p] for p in builds]


def test_all_kinds_of_builds_are_made_and_all_can_be_read(tmp_path: Path) -> None:
    _, model = read(make_workspace(tmp_path, 90))
    assert model.findings == ()
    assert len(model.builds) == 90
    assert {n.rpartition("-")[0] for n in model.builds} == {
        "dipper",
        "dipper-light",
        "pipit",
        "redshank",
        "curlew",
    }
    assert any(entry.part.name.endswith("batch 2") for entry in model.shelf.values())


def test_what_is_made_has_no_faults(tmp_path: Path) -> None:
    make_workspace(tmp_path, 90)
    named = sorted(p.name for p in (tmp_path / "builds").glob("*-00[4-8][05]"))
    assert len(named) == 10
    assert check_workspace(tmp_path, tuple(named)).stops == ()
