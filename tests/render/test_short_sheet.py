"""The sheet on a phone: short, its first screen says what it is and what it weighs, no table is long,
and the scroll bar does not jump.
"""

from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from builder.pipeline.published import Published

NAMES = ("curlew", "dipper", "dipper-light", "pipit", "redshank", "turnstone")
HIGHEST = 9_000  # pixels at a width of 390
_PLACES = """() => { const box = e => e && e.getBoundingClientRect();
  const dt = [...document.querySelectorAll("#glance dt")].find(d => d.textContent.startsWith("Flying weight"));
  const dd = dt.nextElementSibling;
  return [box(document.querySelector("h1")), box(document.querySelector("#glance :is(img, svg)")), box(dd)]; }"""
_WIDEST = """() => [...document.querySelectorAll("main .table, main .ways, main .figures")]
  .filter(e => e.scrollWidth > e.clientWidth + 1).length"""


@pytest.fixture(scope="module")
def site(published_demo: tuple[Path, Published]) -> Path:
    return published_demo[0] / "site"


def _sheet(browser: Browser, site: Path, name: str, width: int = 390) -> Any:
    page = browser.new_context(viewport={"width": width, "height": 844}).new_page()
    page.goto((site / name / "index.html").as_uri())
    page.evaluate("document.fonts.ready")
    page.wait_for_timeout(200)
    return page


@pytest.mark.parametrize("name", NAMES)
def test_it_is_short_and_keeps_its_height(browser: Browser, site: Path, name: str) -> None:
    page = _sheet(browser, site, name)
    height = page.evaluate("document.documentElement.scrollHeight")
    assert 2_000 < height <= HIGHEST
    for y in (3_000, height, 0):
        page.evaluate(f"scrollTo(0, {y})")
        page.wait_for_timeout(60)
        assert page.evaluate("document.documentElement.scrollHeight") == height
    page.context.close()


@pytest.mark.parametrize("topic", ["parts", "wiring", "work", "setup", "flight", "numbers"])
def test_topic_pages_have_their_real_heights(browser: Browser, site: Path, topic: str) -> None:
    page = _sheet(browser, site, f"pipit/{topic}")
    height = page.evaluate("document.documentElement.scrollHeight")
    for y in (height // 2, height):
        page.evaluate(f"scrollTo(0, {y})")
        page.wait_for_timeout(60)
        assert page.evaluate("document.documentElement.scrollHeight") == height
    page.context.close()


@pytest.mark.parametrize("name", NAMES)
def test_the_first_screen_shows_name_picture_and_flying_weight(
    browser: Browser, site: Path, name: str
) -> None:
    page = _sheet(browser, site, name)
    for box in page.evaluate(_PLACES):
        assert box is not None and box["height"] > 15
        assert box["top"] >= 0 and box["bottom"] <= 844
    page.context.close()


@pytest.mark.parametrize("name", NAMES)
def test_no_table_of_it_is_long_or_wider_than_the_screen(
    browser: Browser, site: Path, name: str
) -> None:
    page = _sheet(browser, site, name)
    rows = page.evaluate(
        "[...document.querySelectorAll('main table')].map(t => t.tBodies[0].rows.length)"
    )
    assert len(rows) >= 5 and max(rows) <= 10
    assert page.locator("#glance .facts > div").count() <= 10
    assert page.locator("#ways li").count() == 6
    assert page.evaluate(_WIDEST) == 0
    page.context.close()


@pytest.mark.parametrize(
    ("words", "leads_to"),
    [
        ("Buy", "dipper/buy/"),
        ("Wire", "dipper/wiring/"),
        ("Build", "dipper/work/"),
        ("Set up", "dipper/setup/"),
        ("fly", "dipper/flight/"),
        ("Compare", "compare/"),
    ],
)
def test_each_way_on_is_one_touch(browser: Browser, site: Path, words: str, leads_to: str) -> None:
    page = _sheet(browser, site, "dipper")
    page.locator("#ways").get_by_role("link", name=words, exact=True).click()
    assert leads_to in page.url
    page.context.close()
