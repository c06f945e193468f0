"""What stands once is not said again: the notice that all of the demo is invented, and a heading by
the caption below it. The picture in the README is there, and shows a page.
"""

import html
import re
from pathlib import Path

import pytest

from builder.pipeline.published import Published
from tests.workspace_edits import ROOT

pytestmark = pytest.mark.slow  # reads all pages

NOTICE = "Everything here is invented"
HEADING = re.compile(r"<h[234][^>]*>(.*?)</h[234]>", re.DOTALL)
CAPTION = re.compile(r"<(caption|figcaption)[^>]*>(.*?)</\1>", re.DOTALL)
PNG = b"\x89PNG\r\n\x1a\n"  # ISO/IEC 15948, 5.2


def _words(markup: str) -> str:
    return html.unescape(re.sub("<[^>]*>", "", markup)).strip().rstrip(".").casefold()


def _repeated(page: str) -> list[str]:
    """Captions that say what the heading above them says."""
    parts = HEADING.split(page)
    said = zip(parts[1::2], parts[2::2], strict=True)
    return [
        _words(heading)
        for heading, below in said
        for caption in CAPTION.finditer(below)
        if _words(caption[2]) == _words(heading)
    ]


def test_a_repeated_heading_is_found() -> None:
    assert _repeated("<h2>Wires</h2><p>x</p><table><caption>Wires.</caption>") == ["wires"]


def test_each_page_says_once_that_all_is_invented_and_no_caption_repeats_its_heading(
    published_demo: tuple[Path, Published],
) -> None:
    pages = sorted((published_demo[0] / "site").rglob("*.html"))
    texts = {page: page.read_text("utf-8") for page in pages}
    assert len(texts) > 100
    assert [p for p, text in texts.items() if text.count(NOTICE) != 1] == []
    assert [(p, found) for p, text in texts.items() if (found := _repeated(text))] == []


def test_the_pictures_of_the_readme_are_there() -> None:
    readme = (ROOT / "README.md").read_text("utf-8")
    pictures = re.findall(r"!\[[^\]]+\]\(([^)]+)\)|<img[^>]+src=\"([^\"]+)\"", readme)
    files = [ROOT / (first or second) for first, second in pictures]
    assert files
    for file in files:
        held = file.read_bytes()
        assert held.startswith(PNG) or file.suffix != ".png"
        assert len(held) > 10_000
