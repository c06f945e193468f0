"""A workspace that is as it was is not read again; whatever bears on a build makes that build be
read, and only that.
"""

from collections.abc import Callable
from pathlib import Path

import pytest

from builder.load.files import load
from builder.model.read.read_cache import ReadCache
from builder.model.read.workspace import Workspace, read_workspace
from builder.publish.kept.read_cache_file import KNOWN, keep_known, read_known
from tests.publish.sources import Sources, first_build


def _sources() -> Sources:
    """Three builds and a variant; the motor and the pack of the first are its own."""
    sources = Sources()
    sources.builds["tit"] = first_build("Tit")
    sources.builds["tit"]["parts"]["motor"]["use"] = "motor-tit"
    sources.builds["tit"]["packs"]["small"]["use"] = "pack-tit"
    sources.builds["late"] = {"title": "Late", "based_on": "tit"}
    return sources


def _read(folder: Path, sources: Sources, known: ReadCache) -> tuple[Workspace, set[str]]:
    """The workspace, and the files that were parsed for it."""
    sources.write(folder)
    loaded = load(folder, sound=known.sound)
    model = read_workspace(loaded, known)
    parsed = {file for file in loaded.documents if loaded.documents.held(file) is not None}  # type: ignore[attr-defined]
    return model, parsed


def _reads_again(folder: Path, change: Callable[[Sources], object]) -> set[str]:
    """Files that are parsed after a change of a workspace that was read before."""
    sources = _sources()
    first, _ = _read(folder, sources, ReadCache())
    assert not first.findings
    change(sources)
    return _read(folder, sources, first.known)[1]


def test_what_is_as_it_was_is_not_parsed(tmp_path: Path) -> None:
    assert _reads_again(tmp_path, lambda _: None) == {"site.yaml"}


@pytest.mark.parametrize(
    ("change", "builds"),
    [
        pytest.param(lambda s: s.builds["wren"].update(title="New"), {"wren"}, id="one build"),
        pytest.param(
            lambda s: s.builds["tit"].update(title="New"),
            {"tit", "late"},
            id="a base, with its variant",
        ),
        pytest.param(
            lambda s: s.comments.update({"builds/robin/build.yaml": 1}), {"robin"}, id="a comment"
        ),
        pytest.param(
            lambda s: s.shelf["air.yaml"]["motor-tit"].update(mass="3.3 g"),
            {"wren", "robin", "tit", "late"},
            id="a part and those that may swap to it",
        ),
        pytest.param(
            lambda s: s.shelf["air.yaml"]["prop-large"].update(blades=3),
            set(),
            id="a part that no build may use",
        ),
        pytest.param(
            lambda s: s.shelf["bench.yaml"]["pack-tit"].update(capacity="260 mAh"),
            {"wren", "robin", "tit", "late"},
            id="the size of a pack decides which are like it",
        ),
        pytest.param(
            lambda s: s.site.update(currency="CHF"),
            {"wren", "robin", "tit", "late"},
            id="settings of the site",
        ),
    ],
)
def test_what_bears_on_a_build_makes_it_be_read(
    tmp_path: Path, change: Callable[[Sources], object], builds: set[str]
) -> None:
    read = _reads_again(tmp_path, change)
    assert {f.split("/")[0] for f in read if f.endswith("/build.yaml")} == builds


def test_what_was_not_read_is_the_same_when_it_is_asked_for(tmp_path: Path) -> None:
    sources = _sources()
    sources.builds["tit"]["flights"] = [
        {"date": "2026-10-02", "pack": "small", "airborne": "4 min", "used": "200 mAh"}
    ]
    first, _ = _read(tmp_path, sources, ReadCache())
    again, _ = _read(tmp_path, sources, first.known)
    assert not first.findings and first.digests == again.digests and first.known == again.known
    for name, build in first.builds.items():
        assert again.builds[name].source == build.source
        assert again.builds[name].digest == build.digest == first.digests[name]
    assert again.builds["late"].log_of is not None
    assert again.builds["late"].log_of.name == "tit"


def test_a_broken_part_is_told_of_and_known_no_more(tmp_path: Path) -> None:
    sources = _sources()
    first, _ = _read(tmp_path, sources, ReadCache())
    sources.shelf["air.yaml"]["motor-wren"]["mass"] = "4.1 stone"
    broken, _ = _read(tmp_path, sources, first.known)
    assert {f.build for f in broken.findings} == {"", "wren", "robin"}
    assert set(broken.builds) == {"tit", "late"} and "shelf/air.yaml" not in broken.known.shelf
    sources.shelf["air.yaml"]["motor-wren"]["mass"] = "4.1 g"
    assert not _read(tmp_path, sources, broken.known)[0].findings


def test_a_part_that_stands_twice_is_told_of_each_time(tmp_path: Path) -> None:
    sources = _sources()
    sources.shelf["bench.yaml"]["prop-wren"] = sources.shelf["air.yaml"]["prop-wren"]
    first, _ = _read(tmp_path, sources, ReadCache())
    again, _ = _read(tmp_path, sources, first.known)
    assert [f.code for f in first.findings] == ["data/twice"] and again.findings == first.findings


def test_a_file_without_keys_is_told_of_again_by_who_reads_a_second_time(tmp_path: Path) -> None:
    _sources().write(tmp_path)
    (tmp_path / "builds" / "robin" / "build.yaml").write_text("- a list\n", "utf-8")
    first = load(tmp_path)
    again = load(tmp_path, before=first)
    told = [(f.code, f.build) for f in read_workspace(first).findings]
    assert told == [("data/wrong-shape", "robin")]
    assert [(f.code, f.build) for f in read_workspace(again).findings] == told


def test_it_is_kept_in_a_file_that_may_hold_anything(tmp_path: Path) -> None:
    model, _ = _read(tmp_path, _sources(), ReadCache())
    keep_known(tmp_path, model.known, ReadCache())
    assert read_known(tmp_path) == model.known
    kept = (tmp_path / KNOWN).read_text("utf-8")
    for wrong in (
        "",
        "[]",
        '{"code": 1}',
        kept.replace('"parts"', '"part"'),
        kept[:-9],
        '{"code": "x", "known": 3}',
    ):
        (tmp_path / KNOWN).write_text(wrong, "utf-8")
        assert read_known(tmp_path) == ReadCache()
