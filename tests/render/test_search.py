"""The page that finds: questions as people ask them, by keyboard, from a folder, without a script."""

import json
import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from builder.pages.site.findable import BEGINS, KINDS, Findable, chapter_lines, found_in
from builder.pipeline.published import Published
from builder.render.data.search_data import find_js
from tests.workspace_edits import ROOT

MOST = 12_000  # bytes of what can be found, in the mean of the demo builds: 60 kB of five

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
    ("mount the camera", "Put in place"),
    ("how many flights", "What the log says"),
    ("which side is plus", "PLUS"),
    ("download the settings", "Files that go with it"),
    ("where is north", "ompass"),
    ("what size propellers", ": propeller"),
    ("propeller size", ": propeller"),
)


# As a newcomer asks, in the trade's other words; a line among the first three that leads to all
# builds, by these words and this place in each. Which words people use: common practice, no source.
OF_ALL = (
    ("what battery do I need", "Batteries", "parts/index.html#budget-packs"),
    ("how heavy is it", "Weight", "parts/index.html#weight"),
    ("auw", "Flying weight (all-up)", "flight/index.html#flight-figures"),
    ("thrust to weight ratio", "Thrust over weight", "flight/index.html#flight-figures"),
    ("props off", "Propellers off", "work/index.html#caution-propellers"),
    ("prop direction", "lockwise propellers", "work/index.html#step-"),
    ("wire thickness", "Wires to cut", "wiring/index.html#cuts"),
    ("soldering iron temperature", "Soldering order", "work/index.html#soldering-order"),
    ("how do I bind the receiver", "Control link", "setup/index.html#radio-control"),
    ("VTX channel", "Channel", "setup/index.html#radio-video"),
    ("vtx power", "Power at the transmitter", "setup/index.html#radio-video"),
    ("failsafe", "Lost link", "setup/index.html#"),
    ("what if the signal is lost", "ost link", "setup/index.html#"),
    ("low battery alarm", "Alarms by battery", "setup/index.html#"),
    ("centre of gravity", "Centre of mass", "parts/index.html#balance-table"),
    ("I crashed, what now", "After a crash", "flight/index.html#upkeep-crash"),
    ("short circuit", "before it gets power", "work/index.html#step-"),
    ("smoke stopper", "First power-up", "work/index.html#first-power-up"),
    ("smoke test", "First power-up", "work/index.html#first-power-up"),
    ("what if it crashes", "After a crash", "flight/index.html#upkeep-crash"),
    ("video transmitter power", "Power at the transmitter", "setup/index.html#radio-video"),
    ("where does the red wire go", "Supply wires", "wiring/index.html#"),
    ("how long does it take to build", "order of work", "work/index.html"),
    ("why is it beeping", "Alarms", "setup/index.html#"),
    ("motor spins the wrong way", "To try before the first flight", "setup/index.html#"),
    ("how much does it cost?", "Budget", "parts/index.html#budget"),
    ("what tools do I need", "tools", "parts/index.html#budget-once"),
    ("am I allowed to fly it", "law", "work/index.html#caution-law"),
    ("flight time", "Timer", "flight/index.html#flight-figures"),
    ("how far can it fly", "Video link", "setup/index.html#radio-video"),
    ("uart", "Serial ports", "wiring/index.html#"),
    ("which way round is the board", "How the board sits", "setup/index.html#setup"),
    ("osd", "On-screen figures", "setup/index.html#"),
    ("firmware", "Software", "setup/index.html#setup"),
    ("maintenance", "Keeping it flying", "flight/index.html#upkeep"),
    ("print it", "bench sheet", "bench-sheet/index.html"),
    ("where do I buy it", "buy", "buy/index.html"),
    ("solder fumes", "smoke", "work/index.html#caution-fumes"),
    ("hover amps", "Hover current", "flight/index.html#flight-figures"),
    ("cheaper parts", "What swaps can do", "choose/index.html#choose"),
    ("c rating", "Full throttle against", "flight/index.html#full-throttle"),
    ("spare parts", "Spares", "flight/index.html#upkeep-history"),
    ("mount the motors", "Mount each motor", "work/index.html#step-"),
    ("arm switch", "Arming", "setup/index.html#"),
    ("wind", "The first 30 seconds", "flight/index.html#upkeep-first"),
    ("how windy can it be", "The first 30 seconds", "flight/index.html#upkeep-first"),
    ("licence", "law", "work/index.html#caution-law"),
    ("do I need a license", "law", "work/index.html#caution-law"),
    ("what broke", "Spares and history", "flight/index.html#upkeep-history"),
    ("repairs", "Spares and history", "flight/index.html#upkeep-history"),
    ("no video", "This does not work", "bench/index.html#trouble"),
    ("no picture", "This does not work", "bench/index.html#trouble"),
    ("the motor does not work", "This does not work", "bench/index.html#trouble"),
)
BUILDS = ("curlew", "dipper", "dipper-light", "pipit", "redshank", "turnstone")


@pytest.fixture(scope="module")
def site(published_demo: tuple[Path, Published]) -> Path:
    return published_demo[0] / "site"


@pytest.fixture(scope="module")
def page(browser: Browser, site: Path) -> Page:
    tab = browser.new_context(viewport={"width": 390, "height": 844}).new_page()
    tab.goto((site / "search/index.html").as_uri())
    tab.locator("head script[src$='find.js']").nth(len(BUILDS) - 1).wait_for(state="attached")
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


@pytest.mark.parametrize(("asked", "line", "place"), OF_ALL, ids=[a for a, _, _ in OF_ALL])
def test_who_does_not_know_the_words_finds_it_in_each_build(
    page: Page, asked: str, line: str, place: str
) -> None:
    _lines(page, asked)
    told = page.evaluate("""[...document.querySelectorAll(".found li")].slice(0, 3)
        .map(li => [li.textContent, [...li.querySelectorAll("a")].map(a => a.href)])""")
    ways = [way for text, own in told if line in text for way in own]
    assert {b for b in BUILDS if any(f"/{b}/{place}" in way for way in ways)} == set(BUILDS), told


def test_a_line_says_its_kind_its_build_and_its_topic(page: Page) -> None:
    """A figure and a step lead to their own place; the words beside say which page of which build."""
    for asked, kind, topic, place in (
        (
            "hover current pipit",
            "figure",
            "Pipit: flight",
            "pipit/flight/index.html#flight-figures",
        ),
        (
            "mount motors redshank",
            "step",
            "Redshank 5: order of work",
            "redshank/work/index.html#step-",
        ),
        ("budget curlew", "topic", "Curlew 7: parts", "curlew/parts/index.html#budget"),
        (
            "esc m1a redshank",
            "contact",
            "Redshank 5: wiring",
            "redshank/wiring/index.html#pin-esc-M1A",
        ),
    ):
        _lines(page, asked)
        first = page.locator(".found li").first
        small, way = first.locator("small").inner_text(), first.locator("a").first
        assert small.strip().split(", ")[0] == kind
        ways = first.locator("a").evaluate_all("all => all.map(a => a.href)")
        assert any(place in one for one in ways), (asked, ways)
        assert topic.split(":")[0] in small or topic.split(":")[0] in way.inner_text()
        assert topic.split(": ")[1] in small


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
    assert tab.locator("#builds tbody tr").count() == 6
    context.close()


def test_what_can_be_found_is_small(site: Path) -> None:
    sizes = [f.stat().st_size for f in site.glob("*/find.js")]
    assert len(sizes) == len(BUILDS) and 10_000 < sum(sizes) <= MOST * len(BUILDS)


def test_words_of_a_stranger_stay_words() -> None:
    """No word ends the script or starts another line of it."""
    evil = '</script><b>\u2028 x "); alert(1) //'
    made = find_js("wren", evil, (Findable("part", evil, "parts/x/index.html"),)).decode()
    assert "<" not in made and "\u2028" not in made
    inside = made.removeprefix("benchleafFind(").removesuffix(");\n")
    build, pages = json.loads(f"[{inside}]")
    assert build == ["wren", evil]
    assert pages == {"../parts/": f"2x {evil}"}


def test_chapters_and_contacts_are_written_short_and_read_whole() -> None:
    """A chapter by its title and its headings; contacts that follow each other share a line."""
    told = chapter_lines("Why so light", "wren/guide/why/index.html", (("ducts", "The ducts"),))
    pads = [
        Findable("contact", "", f"wren/wiring/index.html#pin-{p}")
        for p in ("esc-A", "esc-B", "a-b-C")
    ]
    made = find_js("wren", "Wren", (*pads, *told)).decode()
    _, pages = json.loads(f"[{made.removeprefix('benchleafFind(').removesuffix(');' + chr(10))}]")
    assert pages["wiring/"] == "5esc- A B\n5a- b-C"
    assert pages["guide/why/"] == "9 Why so light\n9ducts The ducts"
    assert found_in((), told) == told


def test_the_script_knows_the_kinds_as_they_are_written() -> None:
    """Lines carry a digit for their kind and no beginning of their anchor: both sides must agree."""
    script = (ROOT / "templates/static/search.js").read_text("utf-8")
    kinds = re.search(r"var KINDS = (\[.*?\]);", script, re.S)
    begins = re.search(r"var BEGINS = (\{.*?\});", script, re.S)
    assert kinds and tuple(json.loads(kinds[1])) == KINDS
    assert begins and json.loads(re.sub(r"(\w+):", r'"\1":', begins[1])) == dict(BEGINS)
