"""Each picture has its own bound, and what was made is kept: a picture that is stopped costs itself."""

import io
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image

from builder.diagnostics.finding import Finding
from builder.load.limits import Limits
from builder.options import PublishOptions
from builder.pipeline.publish import publish_site
from builder.pipeline.published import Published
from builder.render.pictures.published import PictureMade, published_in_widths

NAMES = ("a.jpg", "b.jpg", "c.jpg", "d.jpg")
PHOTOS = "".join(f"  - {{file: {name}, alt: Side {name[0]}.}}\n" for name in NAMES)
BUILD = f"title: Test\nparts: {{frame: frame}}\nphotos:\n{PHOTOS}"
SITE = "title: Site\nat_most: {{seconds: {}}}\n"
MAKER = "builder.pipeline.jobs.published_in_widths"


def _photo(shade: int) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (600, 400), (shade, 110, 140)).save(out, "JPEG")
    return out.getvalue()


def _workspace(tmp_path: Path, seconds: int) -> Path:
    folder, shelf = tmp_path / "builds" / "test", tmp_path / "builds" / "shelf"
    folder.mkdir(parents=True)
    shelf.mkdir()
    (shelf / "parts.yaml").write_text("frame: {kind: frame, name: Frame}\n")
    (tmp_path / "builds" / "site.yaml").write_text(SITE.format(seconds))
    (folder / "build.yaml").write_text(BUILD)
    for shade, name in enumerate(NAMES):
        (folder / name).write_bytes(_photo(20 * shade))
    return folder


def _taking(
    made: list[str], seconds: Callable[[str], float]
) -> Callable[[str, bytes, Limits], PictureMade]:
    """Makes a picture as ever, but takes so long for it, and notes its name when it is done."""

    def slowly(name: str, content: bytes, limits: Limits) -> PictureMade:
        time.sleep(seconds(name))
        done = published_in_widths(name, content, limits)
        made.append(name)
        return done

    return slowly


def _publish(workspace: Path, everything: bool = False) -> Published:
    done = publish_site(PublishOptions(workspace, workers=1, pdf=False, everything=everything))
    assert not done.errors
    return done


def _of_pictures(done: Published) -> list[Finding]:
    """What was found in pictures; a slow machine may stop other jobs at so small a bound."""
    return [f for f in done.findings if "picture" in f.message]


def test_many_pictures_may_take_longer_than_one_may(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made: list[str] = []
    monkeypatch.setattr(MAKER, _taking(made, lambda name: 0.35))
    _workspace(tmp_path, 1)
    begun = time.monotonic()
    assert not _of_pictures(_publish(tmp_path))
    assert time.monotonic() - begun > 1, "all together take longer than the bound of one"
    assert tuple(made) == NAMES
    assert all((tmp_path / "site" / "test" / name).is_file() for name in NAMES)


def test_a_picture_that_is_stopped_takes_no_other_with_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made: list[str] = []
    late = _taking(made, lambda name: 9 if name == "b.jpg" else 0)
    monkeypatch.setattr(MAKER, late)
    _workspace(tmp_path, 1)
    (found,) = _of_pictures(_publish(tmp_path))
    assert found.code == "data/too-slow" and found.build == "test"
    assert "its picture b.jpg took over 1 s" in found.message
    assert made == ["a.jpg", "c.jpg", "d.jpg"]
    made.clear()
    assert _publish(tmp_path).left_out == ("test",)
    assert not made, "neither is what is there made again, nor what is stopped waited for"
    monkeypatch.setattr(MAKER, _taking(made, lambda name: 0))
    (tmp_path / "builds" / "site.yaml").write_text(SITE.format(60))
    assert _publish(tmp_path).published == ("test",)
    assert made == ["b.jpg"]
    page = (tmp_path / "site" / "test" / "parts" / "index.html").read_text("utf-8")
    assert all(f"widths/{name}-480.webp 480w" in page for name in NAMES)


def test_one_changed_picture_is_made_alone_and_a_template_changes_none(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made: list[str] = []
    monkeypatch.setattr(MAKER, _taking(made, lambda name: 0))
    folder = _workspace(tmp_path, 60)
    _publish(tmp_path)
    made.clear()
    (folder / "c.jpg").write_bytes(_photo(200))
    _publish(tmp_path)
    assert made == ["c.jpg"]
    made.clear()
    own = tmp_path / "templates" / "static"
    own.mkdir(parents=True)
    (own / "own.css").write_text("p { color: inherit }\n")
    assert _publish(tmp_path).published == ("test",)
    assert not made
    _publish(tmp_path, everything=True)
    assert tuple(made) == NAMES


def test_a_picture_that_cannot_be_read_leaves_the_old_pages_with_all_their_pictures(
    tmp_path: Path,
) -> None:
    folder, site = _workspace(tmp_path, 60), tmp_path / "site" / "test"
    _publish(tmp_path)
    before = {name: (site / name).read_bytes() for name in NAMES}
    (folder / "build.yaml").write_text(BUILD.replace("d.jpg", "e.jpg"))
    (folder / "b.jpg").write_bytes(b"no picture")
    done = _publish(tmp_path)
    assert done.kept == ("test",)
    assert {f.code for f in done.findings} == {"data/picture"}
    assert before == {name: (site / name).read_bytes() for name in NAMES}
