"""Photographs are published in their widths, the pages say their size, and none is made again that has
not changed.
"""

import io
from pathlib import Path

from PIL import Image

from builder.options import PublishOptions
from builder.pipeline.publish import publish_site
from builder.pipeline.published import Published

BUILD = """
title: Test
parts: {frame: frame}
photos: [{file: nose.jpg, alt: The nose.}]
"""
FILES = ("nose.jpg", "widths/nose.jpg-480.webp", "widths/nose.jpg-960.webp")


def _photo(size: tuple[int, int]) -> bytes:
    image, out = Image.new("RGB", size, (90, 110, 140)), io.BytesIO()
    exif = Image.Exif()
    exif[0x0110] = "A camera"  # the model, Exif 2.3
    image.save(out, "JPEG", exif=exif)
    return out.getvalue()


def _publish(workspace: Path) -> Published:
    done = publish_site(PublishOptions(workspace, workers=1, pdf=False))
    assert not done.errors
    return done


def test_widths_size_and_nothing_made_again(tmp_path: Path) -> None:
    folder, site = tmp_path / "builds" / "test", tmp_path / "site" / "test"
    folder.mkdir(parents=True)
    (tmp_path / "builds" / "shelf").mkdir()
    (tmp_path / "builds" / "shelf" / "parts.yaml").write_text("frame: {kind: frame, name: Frame}\n")
    (tmp_path / "builds" / "site.yaml").write_text("title: Site\n")
    (folder / "build.yaml").write_text(BUILD)
    (folder / "nose.jpg").write_bytes(_photo((4000, 3000)))
    _publish(tmp_path)
    page = (site / "parts" / "index.html").read_text("utf-8")
    assert "width=1600 height=1200" in page
    assert "widths/nose.jpg-480.webp 480w" in page and "widths/nose.jpg-1600.webp 1600w" in page
    assert all((site / file).is_file() for file in FILES)
    assert all(b"A camera" not in (site / file).read_bytes() for file in FILES)
    assert _publish(tmp_path).written == 0
    (folder / "nose.jpg").write_bytes(_photo((1500, 3000)))
    _publish(tmp_path)
    page = (site / "parts" / "index.html").read_text("utf-8")
    assert "width=800 height=1600" in page
    assert not (site / FILES[2]).exists()  # it is narrower now
