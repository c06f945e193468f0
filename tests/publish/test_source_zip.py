"""The source that a sheet comes with: what it holds, what it keeps back, and that it gives the same
numbers again.
"""

import hashlib
import io
import json
import unicodedata
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from PIL import Image

from builder.options import PublishOptions
from builder.pipeline.publish import publish_site
from builder.pipeline.published import Published
from tests.publish.sources import Sources
from tests.publish.zip_by_hand import directory_modes, local_entries, unpacked


def _publish(workspace: Path) -> Published:
    return publish_site(PublishOptions(workspace, pdf=False, workers=1))


def _given(workspace: Path, sources: Sources, name: str = "wren") -> bytes:
    sources.write(workspace)
    _publish(workspace)
    return (workspace / "site" / name / "source.zip").read_bytes()


def _numbers(
    tree: Any, path: tuple[object, ...] = ()
) -> Iterator[tuple[tuple[object, ...], float]]:
    if isinstance(tree, dict):
        for key, value in tree.items():
            yield from _numbers(value, (*path, key))
    elif isinstance(tree, list):
        for i, value in enumerate(tree):
            yield from _numbers(value, (*path, i))
    elif isinstance(tree, int | float) and not isinstance(tree, bool):
        yield path, tree


def _unpack(archive: bytes, folder: Path) -> None:
    for name, content in unpacked(archive).items():
        target = folder / name
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)


@pytest.mark.parametrize("name", ["dipper-light", "pipit"])
def test_an_empty_workspace_publishes_the_same_numbers_from_it(
    published_demo: tuple[Path, Published], tmp_path: Path, name: str
) -> None:
    there = published_demo[0] / "site" / name
    _unpack((there / "source.zip").read_bytes(), tmp_path)
    done = _publish(tmp_path)
    assert name in done.published and not done.left_out and not done.errors
    here = tmp_path / "site" / name
    before, after = (
        dict(_numbers(json.loads((at / "sheet.json").read_text("utf-8")))) for at in (there, here)
    )
    assert len(before) > 5000
    assert after == before
    assert (here / "source.zip").read_bytes() == (there / "source.zip").read_bytes()


def test_it_is_stored_sorted_and_the_same_bytes_for_the_same_sources(tmp_path: Path) -> None:
    sources = Sources()
    sources.site["author"] = "Renée of the \u00d6re"
    first = _given(tmp_path / "a", sources)
    names = [entry.name for entry in local_entries(first)]
    assert names == sorted(names) and "origin.yaml" in names
    assert {(e.method, e.time, e.day) for e in local_entries(first)} == {(0, 0, 0x21)}
    assert set(directory_modes(first).values()) == {0o100644}
    for entry in local_entries(first):
        assert unicodedata.normalize("NFC", entry.name) == entry.name
        assert b"\r" not in entry.content and b"#" not in entry.content
    assert _given(tmp_path / "b", sources) == first


def test_a_comment_of_the_sources_is_not_in_it_and_changes_no_byte(tmp_path: Path) -> None:
    first = _given(tmp_path, Sources())
    file = tmp_path / "builds" / "wren" / "build.yaml"
    file.write_text("# my neighbour's wren\n" + file.read_text("utf-8"), "utf-8")
    assert _publish(tmp_path).written == 0
    assert (tmp_path / "site" / "wren" / "source.zip").read_bytes() == first


def test_only_parts_that_the_build_may_use_are_in_it(tmp_path: Path) -> None:
    files = unpacked(_given(tmp_path, Sources()))
    shelf = [yaml.safe_load(v) for k, v in files.items() if k.startswith("builds/shelf/")]
    names = {name for file in shelf for name in file}
    assert {"frame-wren", "motor-wren", "motor-tit", "pack-wren", "pack-tit"} <= names
    assert "prop-large" not in names
    assert not any("robin" in name for name in files)
    site = yaml.safe_load(files["builds/site.yaml"])
    assert site["limits"][0]["name"] == "60 g class" and "compare" not in site


def test_its_digest_is_of_the_files_it_holds(tmp_path: Path) -> None:
    """SHA-256 over path, length and bytes in the order of paths, made here by hand."""
    files = unpacked(_given(tmp_path, Sources()))
    origin = yaml.safe_load(files.pop("origin.yaml"))
    text = b"".join(f"{k}\0{len(files[k])}\0".encode() + files[k] for k in sorted(files))
    assert origin["digest"] == hashlib.sha256(text).hexdigest()
    assert origin["licence"].startswith("not stated")
    assert origin["address"] == "https://wren.example/" and origin["build"] == "wren"


def test_pictures_are_as_published_without_what_a_camera_wrote(tmp_path: Path) -> None:
    sources = Sources()
    sources.builds["wren"]["hero"] = {"file": "hero.jpg", "alt": "A wren"}
    sources.write(tmp_path)
    exif = Image.Exif()
    exif[0x010F] = "canary-camera-of-mine"
    picture = io.BytesIO()
    Image.new("RGB", (40, 20), (90, 40, 10)).save(picture, "JPEG", exif=exif)
    (tmp_path / "builds" / "wren" / "hero.jpg").write_bytes(picture.getvalue())
    _publish(tmp_path)
    archive = (tmp_path / "site" / "wren" / "source.zip").read_bytes()
    published = (tmp_path / "site" / "wren" / "hero.jpg").read_bytes()
    assert unpacked(archive)["builds/wren/hero.jpg"] == published
    assert b"canary" not in archive
    Image.new("RGB", (40, 20), (0, 0, 200)).save(tmp_path / "builds" / "wren" / "hero.jpg")
    _publish(tmp_path)
    again = (tmp_path / "site" / "wren" / "source.zip").read_bytes()
    assert unpacked(again)["builds/wren/hero.jpg"] != published


@pytest.mark.parametrize("where", ["build", "base", "site"])
def test_who_gives_no_source_gives_none_and_no_link(tmp_path: Path, where: str) -> None:
    sources = Sources()
    sources.builds["robin"] = {"title": "Robin", "based_on": "wren", "revised": "2026-10-02"}
    sources.write(tmp_path)
    _publish(tmp_path)
    lies = tmp_path / "site" / "robin" / "source.zip"
    page = tmp_path / "site" / "robin" / "parts" / "index.html"
    assert lies.is_file() and "source.zip" in page.read_text("utf-8")
    trees = {"build": sources.builds["robin"], "base": sources.builds["wren"], "site": sources.site}
    trees[where]["give_source"] = "no"
    sources.write(tmp_path)
    _publish(tmp_path)
    assert not lies.exists() and "source.zip" not in page.read_text("utf-8")


def test_what_is_private_in_an_alternative_keeps_the_source_back(tmp_path: Path) -> None:
    """The sheet does not show the note of a part that only could be used; its source would."""
    sources = Sources()
    sources.shelf["air.yaml"]["motor-tit"]["note"] = "operator number: XYZ-88-canary"
    sources.write(tmp_path)
    done = _publish(tmp_path)
    assert "wren" in done.published
    said = [f for f in done.findings if f.code == "data/private-source"]
    assert {f.build for f in said} == {"wren", "robin"}
    assert "an operator number" in said[0].message
    assert not (tmp_path / "site" / "wren" / "source.zip").exists()
    page = (tmp_path / "site" / "wren" / "parts" / "index.html").read_text("utf-8")
    assert "source.zip" not in page


def test_a_field_that_is_never_published_is_in_no_source(tmp_path: Path) -> None:
    sources = Sources()
    sources.shelf["air.yaml"]["motor-tit"]["serial_number"] = "77-canary"
    archive = _given(tmp_path, sources)
    assert b"serial_number" not in archive


def test_a_part_is_given_as_an_entry_for_a_shelf(tmp_path: Path) -> None:
    sources = Sources()
    sources.shelf["air.yaml"]["frame-wren"]["note"] = "password: canary-of-mine"
    sources.site["currency"] = "EUR"
    sources.write(tmp_path)
    _publish(tmp_path)
    part = tmp_path / "site" / "parts" / "prop-wren" / "part.yaml"
    assert not part.exists(), "no build is published: its frame has a fault"
    del sources.shelf["air.yaml"]["frame-wren"]["note"]
    sources.write(tmp_path)
    _publish(tmp_path)
    assert yaml.safe_load(part.read_text("utf-8")) == {
        "prop-wren": {
            "kind": "propeller",
            "name": "Wren propeller",
            "diameter": "50 mm",
            "blades": 3,
        }
    }
    page = part.with_name("index.html")
    assert "part.yaml" in page.read_text("utf-8")
    sources.site["give_source"] = "no"
    sources.write(tmp_path)
    _publish(tmp_path)
    assert not part.exists() and "part.yaml" not in page.read_text("utf-8")
