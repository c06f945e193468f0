"""Seven questions that somebody has who opens a sheet on a phone. Each is answered in at most two
touches: a person scrolls, finds a link by its words, touches it, and then sees the answer without
looking further.

The seven questions and the two touches are our own aim. Answers are read from the source and from
the data file of the build, not from the pages that show them.
"""

import json
import re
from pathlib import Path
from typing import Any

import pytest
import yaml
from playwright.sync_api import Browser, Page, ViewportSize

from builder.pipeline.published import Published

MOST = 2  # touches
PHONE: ViewportSize = {"width": 390, "height": 844}
# What stands in the window and is not covered: the words of each piece of text that is seen whole
# in one of its lines.
_SEEN = """() => { const seen = []; let node;
  const all = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while ((node = all.nextNode())) { const words = node.nodeValue.trim(); if (!words) continue;
    const range = document.createRange(), own = node.parentElement; range.selectNodeContents(node);
    const lines = [...range.getClientRects()].filter(b => b.width > 1 && b.top >= 0 && b.left >= 0
      && b.bottom <= innerHeight && b.right <= innerWidth + 1);
    const shows = b => { const there = document.elementFromPoint((b.left + b.right) / 2, (b.top + b.bottom) / 2);
      return there && (own.contains(there) || there.contains(own)); };
    if (lines.some(shows)) seen.push(words); }
  return seen.join(" ").replace(/\\s+/g, " "); }"""


@pytest.fixture(scope="module")
def site(published_demo: tuple[Path, Published]) -> Path:
    return published_demo[0] / "site"


@pytest.fixture(scope="module")
def phone(browser: Browser) -> Any:
    context = browser.new_context(viewport=PHONE, has_touch=True, is_mobile=True)
    yield context
    context.close()


def _touch(page: Page, words: str) -> None:
    """The first link in the page's own text that says these words; a person scrolls down to it."""
    link = page.get_by_role("link", name=words, exact=True)
    first = link.and_(page.locator("main a")).first
    first.scroll_into_view_if_needed(timeout=4_000)
    with page.expect_event("framenavigated"):  # also where it leads to a place on the same page
        first.tap(timeout=4_000)
    page.wait_for_load_state("load")
    page.wait_for_timeout(300)


def _seen(page: Page) -> str:
    words: str = page.evaluate(_SEEN)
    return words


def _mass(site: Path, build: str, key: str) -> float:
    data = json.loads((site / build / "sheet.json").read_text("utf-8"))
    grams: float = 1000 * data["figures"][f"{build}/mass/{key}"]["value"]
    return grams


def _cost(site: Path) -> str:
    data = json.loads((site / "dipper" / "sheet.json").read_text("utf-8"))
    return f"{data['figures']['dipper/budget/this-build']['value']:.2f} EUR"


def _answers(site: Path) -> dict[str, tuple[tuple[str, ...], str]]:
    """For each question the words to touch, and what is then seen."""
    source = yaml.safe_load((site.parent / "builds" / "dipper" / "build.yaml").read_text("utf-8"))
    red = next(w for w in source["wires"] if w["from"] == "camera.5V")
    light, heavy = _mass(site, "dipper-light", "dry"), _mass(site, "dipper", "dry")
    lighter = "Dipper-light" if light < heavy else "Dipper"
    large = _mass(site, "dipper", "all-up-large")
    frame = "Sillwright 3-inch frame"
    pair = "Dipper 3 and Dipper 3, lighter motors"
    return {
        "weight": ((), f"Flying weight, battery small {_mass(site, 'dipper', 'all-up-small'):.1f}"),
        "cost": (("Budget in full",), f"This build {_cost(site)}"),
        "what to buy": (("Buy", "Reedmarket (invented)"), f"{frame} 1 1 46.00 EUR"),
        "how is this wired": (
            ("Wire", "Weirside small camera (camera)"),
            f"5V rear edge takes power {red['to']} {red['colour']}",
        ),
        "what next": (("one at a time",), "1 Weigh and photograph every part"),
        "is it legal": (
            ("Weight in full",),
            f"250 g class: .*battery large {large:.1f} g .* within",
        ),
        "which of two": (("Compare", pair), f"{lighter} is {abs(heavy - light):.1f} g lighter dry"),
    }


QUESTIONS = (
    *("weight", "cost", "what to buy", "how is this wired"),
    *("what next", "is it legal", "which of two"),
)


@pytest.mark.parametrize("question", QUESTIONS)
def test_a_question_is_answered_in_two_touches(phone: Any, site: Path, question: str) -> None:
    touches, answer = _answers(site)[question]
    assert len(touches) <= MOST
    page = phone.new_page()
    page.goto((site / "dipper" / "index.html").as_uri())
    for words in touches:
        _touch(page, words)
    seen = _seen(page)
    page.close()
    assert re.search(answer, seen), (answer, seen)


def test_what_is_below_the_window_is_not_seen(phone: Any, site: Path) -> None:
    """So that an answer further down would fail."""
    page = phone.new_page()
    page.goto((site / "dipper" / "index.html").as_uri())
    seen = _seen(page)
    page.close()
    assert "Dipper 3" in seen and "Order of work in full" not in seen
