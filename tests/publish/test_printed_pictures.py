"""A bench sheet shows the pictures beside steps, so it is made again when one of them changes, and
only then.
"""

from pathlib import Path

import pytest

from builder.options import PublishOptions
from builder.pipeline.publish import publish_site
from builder.pipeline.published import Published
from builder.render.paper.pdf_libraries import lacking

SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20" width="40" height="20"><rect'
    ' width="{}" height="9"/></svg>'
)
BUILD = """
title: Test
parts: {frame: frame}
steps: [{id: look, do: check, text: Look at it., photo: look.svg, alt: A bar.}]
"""
pytestmark = pytest.mark.skipif(bool(lacking()), reason="this machine lacks the libraries for PDF")


def _publish(workspace: Path) -> tuple[Published, bytes]:
    done = publish_site(PublishOptions(workspace, workers=1))
    assert not done.errors
    return done, (workspace / "site" / "test" / "bench-sheet.pdf").read_bytes()


def test_a_changed_picture_is_printed_anew(tmp_path: Path) -> None:
    folder = tmp_path / "builds" / "test"
    folder.mkdir(parents=True)
    (tmp_path / "builds" / "shelf").mkdir()
    (tmp_path / "builds" / "shelf" / "parts.yaml").write_text("frame: {kind: frame, name: Frame}\n")
    (tmp_path / "builds" / "site.yaml").write_text("title: Site\n")
    (folder / "build.yaml").write_text(BUILD)
    (folder / "look.svg").write_text(SVG.format(20))
    _, first = _publish(tmp_path)
    again, same = _publish(tmp_path)
    assert same == first
    assert again.written == 0
    (folder / "look.svg").write_text(SVG.format(30))
    changed, second = _publish(tmp_path)
    assert second != first
    assert changed.written <= 4, "the picture, the bench sheet with its card, the manifest"
    (folder / "look.svg").write_text(SVG.format(20))
    assert _publish(tmp_path)[1] == first
