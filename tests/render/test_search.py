"""The page that finds: questions as people ask them, by keyboard, from a folder, without a script."""

import json
import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from builder.pages.site.findable import BEGINS, KINDS, Findable
from builder.pipeline.published import Published
from builder.render.data.search_data import find_js
from tests.workspace_edits import ROOT

MOST = 60_000  # bytes of what can be found, for the demo

# What is typed, and words of a line that has to be among the first three.
ASKED = (
    ("motor screws", "Which screws for the motors?"),
    ("how much does it weigh", "Dry weight"),
    ("flying weight", "Flying weight"),
    ("cost", "Budget"),
    ("where do I buy it", "buy"),
    ("receiver tx", "receiver"),
    ("hover throttle", "Hover throttle"),
    ("gate b", "Gate B"),
    ("why not 5 V", "Why is the video transmitter not on 5 V?"),
    ("pigtail", "pigtail"),
    ("rain", "Does it still fly in the rain?"),
    ("is it legal", "local law"),
    ("how long does it fly", "Timer"),
    ("lost link", "Lost link"),
    ("fail-safe", "ost link"),
    ("which channel", "Channel"),
    ("after a crash", "After a crash"),
    ("charging", "Batteries"),
    ("redshank buy", "buy"),
    ("thread lock", "Thread lock"),
    ("coating", "coating"),
    ("antenna", "antenna"),
    ("capacitor", "capacitor"),
    ("camera", "camera"),
    ("alarms", "Alarms"),
    ("esc m1a", "esc M1A"),
    ("what goes on tx1", "TX1"),
    ("first power up", "First power-up"),
    ("smoke", "smoke"),
    ("centre of mass", "Centre of mass"),
    ("wires to cut", "Wires to cut"),
)


@pytest.fixture(scope="module")
def site(published_demo: tuple[Path, Published]) -> Path:
    return published_demo[0] / "site"


@pytest.fixture(scope="module")
def page(browser: Browser, site: Path) -> Page:
    tab = browser.new_context(viewport={"width": 390, "height": 844}).new_page()
    tab.goto((site / "search/index.html").as_uri())
    tab.locator("head script[src$='find.js']").nth(4).wait_for(state="attached")
    tab.wait_for_timeout(300)
    return tab


def _lines(page: Page, asked: str) -> list[str]:
    page.fill("input[type=search]", asked)
    lines: list[str] = page.evaluate(
        "[...document.querySelectorAll('.found li')].map(line => line.textContent)"
    )
    return lines


@pytest.mark.parametrize(("asked", "line"), ASKED, ids=[a for a, _ in ASKED])
def test_a_question_is_answered_in_the_first_three(page: Page, asked: str, line: str) -> None:
    assert any(line in found for found in _lines(page, asked)[:3])


def test_what_is_found_is_there(page: Page, site: Path) -> None:
    """Each way of each line leads to a page that holds the anchor."""
    ways: set[str] = set()
    for asked, _ in ASKED:
        _lines(page, asked)
        ways |= set(page.evaluate("[...document.querySelectorAll('.found a')].map(a => a.href)"))
    assert len(ways) > 80
    for way in ways:
        file, _, anchor = way.removeprefix("file://").partition("#")
        text = Path(file).read_text("utf-8")
        assert not anchor or f'id="{anchor}"' in text or f"id={anchor}" in text, way


def test_the_keyboard_alone_is_enough(page: Page) -> None:
    """Down goes to the first line, up goes back to the field; what is found is told as a status."""
    _lines(page, "gate b")
    page.focus("input[type=search]")
    page.keyboard.press("ArrowDown")
    assert page.evaluate("document.activeElement.closest('.found') !== null")
    page.keyboard.press("ArrowUp")
    assert page.evaluate("document.activeElement.type") == "search"
    assert "found" in page.inner_text("[role=status]")
    assert _lines(page, "zzzz") == []
    assert page.inner_text("[role=status]") == "Nothing found."


def test_without_a_script_the_builds_are_listed(browser: Browser, site: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    tab = context.new_page()
    tab.goto((site / "search/index.html").as_uri())
    assert tab.locator("#builds tbody tr").count() == 5
    context.close()


def test_what_can_be_found_is_small(site: Path) -> None:
    assert 10_000 < sum(f.stat().st_size for f in site.glob("*/find.js")) <= MOST


def test_words_of_a_stranger_stay_words() -> None:
    """No word ends the script or starts another line of it."""
    evil = '</script><b>\u2028 x "); alert(1) //'
    made = find_js("wren", evil, (Findable("part", evil, "parts/x/index.html"),)).decode()
    assert "<" not in made and "\u2028" not in made
    inside = made.removeprefix("benchleafFind(").removesuffix(");\n")
    build, pages = json.loads(f"[{inside}]")
    assert build == ["wren", evil]
    assert pages == {"../parts/x/index.html": f"2 {evil}"}


def test_the_script_knows_the_kinds_as_they_are_written() -> None:
    """Lines carry a digit for their kind and no beginning of their anchor: both sides must agree."""
    script = (ROOT / "templates/static/search.js").read_text("utf-8")
    kinds = re.search(r"var KINDS = (\[.*?\]);", script, re.S)
    begins = re.search(r"var BEGINS = (\{.*?\});", script, re.S)
    assert kinds and tuple(json.loads(kinds[1])) == KINDS
    assert begins and json.loads(re.sub(r"(\w+):", r'"\1":', begins[1])) == dict(BEGINS)
