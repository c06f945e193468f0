"""A comparison on paper: two sheets of A4 or of Letter for every pair of demo builds, nothing cut
off. Set BENCHLEAF_LONG=1 for both papers in both orders of each pair.
"""

import os
from collections.abc import Mapping
from io import BytesIO
from itertools import permutations
from pathlib import Path
from typing import Literal

import pikepdf
import pytest
from playwright.sync_api import Browser

from builder.pages.site.site_pages import site_pages
from builder.pipeline.check import Checked
from builder.render.assets import asset_files
from builder.render.html.page import Renderer, template_texts
from tests.pages.pair_page import pair_page

LONG = bool(os.environ.get("BENCHLEAF_LONG"))
A4_WIDE = 190.0  # mm: the paper less the margins of @page pair


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory, demo: Checked) -> dict[tuple[str, str], Path]:
    """The page of every ordered pair, with its assets beside it."""
    root = tmp_path_factory.mktemp("paper")
    for name, content in asset_files(None).items():
        (root / name).parent.mkdir(parents=True, exist_ok=True)
        (root / name).write_bytes(content)
    renderer, site = Renderer(template_texts(None)), site_pages(demo.workspace.site)
    out = {}
    for first, second in permutations(demo.sheets.values(), 2):
        page = pair_page(first, second)
        path = root / page.address
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(renderer.page(page, site))
        out[first.build.name, second.build.name] = path
    return out


def _once(pages: Mapping[tuple[str, str], Path], turned: bool) -> dict[tuple[str, str], Path]:
    """Of each two builds the page in one order, or `turned` in the other: both hold the same rows.
    The long proof takes both.
    """
    return {
        (first, second): path
        for (first, second), path in pages.items()
        if LONG or (first > second) == turned
    }


def _sheets(browser: Browser, path: Path, paper: str) -> int:
    page = browser.new_page()
    page.goto(path.as_uri())
    printed = page.pdf(format=paper)
    page.close()
    with pikepdf.open(BytesIO(printed)) as made:
        return len(made.pages)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_every_pair_prints_on_two_pages(
    browser: Browser, pages: dict[tuple[str, str], Path], paper: str
) -> None:
    wanted = _once(pages, paper == "Letter")
    counts = {pair: _sheets(browser, path, paper) for pair, path in wanted.items()}
    assert len(counts) == (30 if LONG else 15)
    assert {pair: n for pair, n in counts.items() if n > 2} == {}


def test_print_is_no_smaller_than_six_and_a_half_points(
    browser: Browser, pages: dict[tuple[str, str], Path]
) -> None:
    """Six points are the least that is read without effort (common practice, no source)."""
    page = browser.new_page()
    page.emulate_media(media="print")
    page.goto(pages["curlew", "pipit"].as_uri())
    sizes = page.evaluate(
        "[...document.querySelectorAll('main :is(td, th, p, li, small, figcaption)')].filter(e =>"
        " e.offsetWidth).map(e => parseFloat(getComputedStyle(e).fontSize) * 0.75)"
    )
    page.close()
    assert min(sizes) >= 6.5


@pytest.mark.parametrize("millimetres", [A4_WIDE, 195.9], ids=["A4", "Letter"])
def test_nothing_is_wider_than_the_paper_also_with_lists_opened(
    browser: Browser, pages: dict[tuple[str, str], Path], millimetres: float
) -> None:
    page = browser.new_page(viewport={"width": int(millimetres / 25.4 * 96), "height": 1000})
    page.emulate_media(media="print")
    for path in _once(pages, millimetres > A4_WIDE).values():
        page.goto(path.as_uri())
        for opened in ("false", "true"):
            wide = page.evaluate(
                f"(document.querySelectorAll('details').forEach(d => d.open = {opened}),"
                " [...document.querySelectorAll('main :is(td, th, p, li, summary, svg)')].filter(e"
                " => e.getBoundingClientRect().right > innerWidth + 1).map(e =>"
                " e.textContent.slice(0, 60)))"
            )
            assert wide == [], (path.parent, opened)
    page.close()


def test_a_list_that_stays_closed_says_where_it_is(
    browser: Browser, pages: dict[tuple[str, str], Path]
) -> None:
    """Its triangle can be opened on a screen only. Lists in a row say it once, behind the last."""
    page = browser.new_page()
    page.emulate_media(media="print")
    page.goto(pages["curlew", "pipit"].as_uri())
    said = page.evaluate(
        "[...document.querySelectorAll('main section')].map(s => [s.id,"
        " [...s.querySelectorAll(':scope > details')].filter(d => d.offsetWidth).map(d =>"
        " [getComputedStyle(d.firstChild).listStyleType, getComputedStyle(d.firstChild,"
        " '::after').content])]).filter(s => s[1].length)"
    )
    page.close()
    assert {section for section, _ in said} >= {"wiring", "order", "setup", "turning"}
    for section, lists in said:
        assert {marker for marker, _ in lists} == {"none"}, section
        assert [words for _, words in lists][-1] == '", on the page only"', section
        assert all(words == "none" for _, words in lists[:-1]), section


@pytest.mark.parametrize("medium", ["screen", "print"])
def test_an_amount_and_its_currency_stay_on_one_line(
    browser: Browser, pages: dict[tuple[str, str], Path], medium: Literal["screen", "print"]
) -> None:
    page = browser.new_page(viewport={"width": 1280, "height": 900})
    page.emulate_media(media=medium)
    for path in _once(pages, medium == "print").values():
        page.goto(path.as_uri())
        heights = page.evaluate(
            "[...document.querySelectorAll('#parts-differ td:last-child')].filter(c =>"
            " c.textContent).map(c => { const r = document.createRange(); r.selectNodeContents(c);"
            " return r.getBoundingClientRect().height /"
            " parseFloat(getComputedStyle(c).fontSize); })"
        )
        assert heights and max(heights) < 2, path.parent
    page.close()
