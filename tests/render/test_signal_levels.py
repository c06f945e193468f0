"""One hazard has one signal word on every page and on paper.

ANSI Z535.6 (from memory): DANGER will, WARNING could kill or injure badly, CAUTION could injure
slightly, NOTICE is about things. A propeller that starts could cut to the bone: WARNING.
"""

import html
import re
from collections import defaultdict
from collections.abc import Callable, Iterable
from pathlib import Path

import pytest

from builder.pages.paper.bench_sheet import bench_sheet
from builder.pages.site.site_pages import site_pages
from builder.pipeline.check import Checked
from builder.pipeline.published import Published
from builder.render.html.page import template_texts
from builder.render.paper.pdf import bench_sheet_html
from tests.render.pdf_reading import sheets

_ON_A_PAGE = re.compile(
    r'<strong class="?signal"?>(?:<svg.*?</svg>)?([A-Z]+)</strong> <span>(.*?)</span>', re.DOTALL
)
_IN_TEXT = re.compile(r"\b(DANGER|WARNING|CAUTION|NOTICE):? +([A-Z][^\n.]+)")


def _hazard(title: str) -> str:
    """A title without its ending: what is said of propellers that are off is one hazard, whatever
    comes after.
    """
    plain = " ".join(html.unescape(re.sub(r"<[^>]+>", "", title)).casefold().split()).rstrip(".")
    return "propellers off" if "propellers off" in plain or "propellers are off" in plain else plain


def _levels(said: Iterable[tuple[str, str]]) -> dict[str, set[str]]:
    found: dict[str, set[str]] = defaultdict(set)
    for signal, title in said:
        found[_hazard(title)].add(signal)
    return found


def test_no_hazard_has_two_signal_words_on_the_site(published_demo: tuple[Path, Published]) -> None:
    site = published_demo[0] / "site"
    said = [m for page in site.rglob("*.html") for m in _ON_A_PAGE.findall(page.read_text("utf-8"))]
    said += [m for text in site.rglob("*.txt") for m in _IN_TEXT.findall(text.read_text("utf-8"))]
    levels = _levels(said)
    assert len(levels) > 5
    assert {k: v for k, v in levels.items() if len(v) > 1} == {}
    assert levels["propellers off"] == {"WARNING"}


@pytest.mark.parametrize(
    "name", ["dipper", "dipper-light", "redshank", "curlew", "pipit", "turnstone"]
)
def test_nor_on_what_goes_to_the_printer(demo: Checked, name: str) -> None:
    sheet, site = demo.sheets[name], site_pages(demo.workspace.site)
    page = bench_sheet(sheet, site, sheet.build.digest)
    levels = _levels(_ON_A_PAGE.findall(bench_sheet_html(page, site, template_texts(None))))
    assert {k: v for k, v in levels.items() if len(v) > 1} == {}
    assert levels["propellers off"] == {"WARNING"}


def test_nor_in_the_text_of_the_pdf(printed_sheet: Callable[[str, str], bytes]) -> None:
    text = "\n".join(p.text for p in sheets(printed_sheet("pipit", "A4")))
    levels = _levels(_IN_TEXT.findall(text))
    assert levels["propellers off"] == {"WARNING"}
    assert {k: v for k, v in levels.items() if len(v) > 1} == {}
    for words in ("stays on at the next", "Pack away", "then open"):
        assert words not in text
    assert (
        text.count("Switch the output on.") == text.count("Power off again") == 3
    )  # gates A, B, C
