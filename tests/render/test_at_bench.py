"""The page at the bench, in a real browser from a file and under the page's policy."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser
from playwright.sync_api import Page as Tab

from builder.pages.bench.at_bench_page import at_bench_page
from builder.pages.site.site_pages import site_pages
from builder.pipeline.check import Checked
from builder.render.assets import asset_files
from builder.render.html.page import Renderer, template_texts

RAIL = '[data-write="gate-A-v1"]'  # 5 V, stated by its maker
SHORT = '[data-write="gate-A-r0"]'  # battery plus to minus
SCRIPTS = ("at-bench.css", "bench.js", "bench-judge.js")
WEIGHT = 30_000  # bytes before compression


@pytest.fixture
def tab(tmp_path: Path, demo: Checked, browser: Browser) -> Iterator[Tab]:
    files = dict(asset_files(None))
    page = at_bench_page(demo.sheets["pipit"])
    site = site_pages(demo.workspace.site)
    files[page.address] = Renderer(template_texts(None)).page(page, site)
    for address, content in files.items():
        (tmp_path / address).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / address).write_bytes(content)
    context = browser.new_context(viewport={"width": 390, "height": 844})
    opened = context.new_page()
    problems: list[str] = []
    opened.on("pageerror", lambda e: problems.append(str(e)))
    opened.goto((tmp_path / page.address).as_uri())
    yield opened
    context.close()
    assert problems == []


def _type(tab: Tab, hash_: str, field: str, text: str) -> str | None:
    """The verdict on a reading."""
    tab.evaluate("h => { location.hash = h; }", hash_)
    tab.locator(field).fill(text)
    return tab.locator(f"label:has({field}) + output").get_attribute("data-verdict")


@pytest.mark.parametrize(
    ("typed", "verdict"),
    [("5,02 V", "right"), ("5020 mV", "right"), ("3.3", "wrong"), ("5 Ω", "doubtful")],
)
def test_volts_are_judged_as_typed(tab: Tab, typed: str, verdict: str) -> None:
    assert _type(tab, "gate-a-2", RAIL, typed) == verdict


@pytest.mark.parametrize(
    ("typed", "verdict"),
    [("OL", "right"), ("47k", "right"), ("1,2 MΩ", "right"), ("0.3", "wrong"), ("beep", "wrong")],
)
def test_a_short_of_the_battery_is_wrong(tab: Tab, typed: str, verdict: str) -> None:
    assert _type(tab, "gate-a-1", SHORT, typed) == verdict


def test_danger_is_passed_by_measuring_right_alone(tab: Tab) -> None:
    assert _type(tab, "gate-a-1", SHORT, "0.3") == "wrong"
    tab.get_by_role("button", name="Done").click()
    assert "measuring right" in tab.get_by_role("alert").inner_text()
    assert tab.locator("#gate-a-1").is_visible()


def test_a_tick_and_the_place_outlast_a_reload(tab: Tab) -> None:
    tab.get_by_role("button", name="Done").click()
    assert not tab.locator("#step-weigh").is_visible()
    assert tab.locator("#step-usb-board").is_visible()
    tab.reload()
    assert tab.locator("#step-usb-board").is_visible()
    assert tab.locator("#step-weigh > input").is_checked()


def test_a_hostile_file_changes_nothing(tab: Tab, tmp_path: Path) -> None:
    hostile = tmp_path / "copy.json"
    hostile.write_text('{"kind": "benchleaf bench notes", "version": 1, "state": {"done": [1]}}')
    tab.locator("input[type=file]").set_input_files(hostile)
    tab.get_by_text("nothing was changed").wait_for()


def test_its_own_files_are_light() -> None:
    files = asset_files(None)
    assert sum(len(files[f"assets/{name}"]) for name in SCRIPTS) < WEIGHT
