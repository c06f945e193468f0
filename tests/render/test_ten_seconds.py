"""Seven questions that somebody has who opens a sheet on a phone. Each is answered in at most two
touches: a person scrolls, finds a link by its words, touches it, and then sees the answer without
looking further.

The seven questions and the two touches are our own aim. Answers are read from the source and from
the data file of the build, not from the pages that show them.
"""

import json
import re
from dataclasses import dataclass
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


def _cost(site: Path, build: str) -> str:
    data = json.loads((site / build / "sheet.json").read_text("utf-8"))
    return f"{data['figures'][f'{build}/budget/this-build']['value']:.2f} EUR"


@dataclass(frozen=True)
class _Asked:
    """What is looked for in a build: a battery with which it is shown and one by which a limit is
    told, a line of a shop, a part and its wire that is followed, and a build to compare it with.
    """

    pack: str
    heavy: str
    line: str
    part: str
    wire: str
    pair: str
    other: str


BUILDS = {
    "dipper": _Asked(
        "small",
        "large",
        "Sillwright 3-inch frame 1 1 46.00 EUR",
        "Weirside small camera (camera)",
        "camera.5V",
        "Dipper 3 and Dipper 3, lighter motors",
        "dipper-light",
    ),
    "turnstone": _Asked(
        "pair",
        "pair",
        "Sillwright 3-inch frame, six arms 1 1 62.00 EUR",
        "Weirside small camera (camera)",
        "camera.5V",
        "Curlew 7 and Turnstone 6",
        "curlew",
    ),
    "curlew": _Asked(
        "long",
        "long",
        "Kingcup 2507, long road 4 and 1 to spare 5 24.00 EUR",
        "Bittern digital video unit (video)",
        "video.VIN",
        "Curlew 7 and Turnstone 6",
        "turnstone",
    ),
}


def _answers(site: Path, build: str) -> dict[str, tuple[tuple[str, ...], str]]:
    """For each question the words to touch, and what is then seen."""
    asked = BUILDS[build]
    source = yaml.safe_load((site.parent / "builds" / build / "build.yaml").read_text("utf-8"))
    red = next(w for w in source["wires"] if w["from"] == asked.wire)
    masses = {name: _mass(site, name, "dry") for name in (build, asked.other)}
    lighter = min(masses, key=lambda name: masses[name])
    less = max(masses.values()) - masses[lighter]
    flying, heavy = (_mass(site, build, f"all-up-{p}") for p in (asked.pack, asked.heavy))
    over = "over" if heavy >= 250 else "within"
    pad = asked.wire.partition(".")[2]
    return {
        "weight": ((), f"Flying weight, battery {asked.pack}.* {flying:.1f}"),
        "cost": (("Budget in full",), f"This build {_cost(site, build)}"),
        "what to buy": (("Buy", "Reedmarket (invented)"), asked.line),
        "how is this wired": (
            ("Wire", asked.part),
            f"{pad} [a-z]+ edge takes power {red['to']} {red['colour']}",
        ),
        "what next": (("one at a time",), "1 Weigh and photograph every part"),
        "is it legal": (
            ("Weight in full",),
            f"250 g class: .*battery {asked.heavy}.* {heavy:.1f} g .* {over}",
        ),
        "which of two": (
            ("Compare", asked.pair),
            f"{lighter.capitalize()} is {less:.1f} g lighter dry",
        ),
    }


QUESTIONS = (
    *("weight", "cost", "what to buy", "how is this wired"),
    *("what next", "is it legal", "which of two"),
)


@pytest.mark.parametrize("build", BUILDS)
@pytest.mark.parametrize("question", QUESTIONS)
def test_a_question_is_answered_in_two_touches(
    phone: Any, site: Path, question: str, build: str
) -> None:
    touches, answer = _answers(site, build)[question]
    assert len(touches) <= MOST
    page = phone.new_page()
    page.goto((site / build / "index.html").as_uri())
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
