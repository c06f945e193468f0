"""The page at the bench, in a real browser from a file and under the page's policy."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Literal

import pytest
from PIL import Image
from playwright.sync_api import Browser
from playwright.sync_api import Page as Tab

from builder.pages.bench.bands import bands_of
from builder.pipeline.check import Checked
from builder.pipeline.sources.note_file import notes_at
from builder.render.assets import asset_files
from tests.render.axe import axe_violations
from tests.render.bench_site import write_bench_page

RAIL = '[data-write="gate-A-v1"]'  # 5 V, stated by its maker
SHORT = '[data-write="gate-A-r0"]'  # battery plus to minus
WEIGHT = 30_000  # bytes before compression


@pytest.fixture(scope="module")
def page_file(tmp_path_factory: pytest.TempPathFactory, demo: Checked) -> Path:
    """One build's page with the site's own files, written once."""
    folder = tmp_path_factory.mktemp("bench")
    return write_bench_page(folder, demo.sheets["pipit"], demo.workspace.site)


@pytest.fixture
def tab(page_file: Path, browser: Browser) -> Iterator[Tab]:
    """The page, opened by somebody who was never here."""
    context = browser.new_context(viewport={"width": 390, "height": 844})
    opened = context.new_page()
    problems: list[str] = []
    opened.on("pageerror", lambda e: problems.append(str(e)))
    opened.goto(page_file.as_uri())
    yield opened
    context.close()
    assert problems == []


def _type(tab: Tab, hash_: str, field: str, text: str) -> str | None:
    """The verdict on a reading."""
    tab.evaluate("h => { location.hash = h; }", hash_)
    tab.locator(field).fill(text)
    return tab.locator(f"label:has({field}) + output").get_attribute("data-verdict")


def test_readings_are_judged_as_typed(tab: Tab) -> None:
    """Volts of a rail whose maker states a tolerance; ohms from the battery's plus to its minus."""
    volts = [("5,02 V", "right"), ("5020 mV", "right"), ("3.3", "wrong"), ("5 Ω", "doubtful")]
    ohms = [("OL", "right"), ("47k", "right"), ("1,2 MΩ", "right"), ("0.3", "wrong")]
    assert [(t, _type(tab, "gate-a-2", RAIL, t)) for t, _ in volts] == volts
    assert [(t, _type(tab, "gate-a-1", SHORT, t)) for t, _ in ohms] == ohms


def test_no_reason_passes_what_would_burn(tab: Tab, demo: Checked) -> None:
    """Each reading that only a right one passes is typed wrong, all else in its screen right; the
    step is then not done, whatever box is ticked.
    """
    bands = bands_of(demo.sheets["pipit"])
    shut = [b for b in bands if b.gate == "A" and b.kind != "band" and (b.danger or b.hard)]
    assert len(shut) > 8
    tab.evaluate("location.hash = 'gate-a-1'")
    screen = tab.locator("#gate-a-1")
    right = {"joined": "beep", "alike": "1M 1M 1M", "low": "1"}
    for band in (b for b in bands if b.key.startswith("gate-A-r")):
        tab.locator(f'[data-write="{band.key}"]').fill(right.get(band.kind, "no beep"))
    for box in screen.locator("input[type=checkbox]").all():
        box.check()
    for band in shut:
        field = tab.locator(f'[data-write="{band.key}"]')
        field.fill("no beep" if band.kind == "joined" else "beep")
        tab.locator("button.go").click()
        assert "measuring right" in tab.get_by_role("alert").inner_text(), band.name
        assert screen.is_visible(), band.name
        field.fill(right.get(band.kind, "no beep"))


def test_no_power_before_the_readings_are_done(tab: Tab) -> None:
    tab.evaluate("location.hash = 'gate-a-2'")
    alert = tab.get_by_role("alert")
    alert.get_by_text("put no power on").wait_for()
    tab.locator(RAIL).fill("5.0")
    tab.locator('[data-write="gate-A-v0"]').fill("7.6")
    for box in tab.locator("#gate-a-2 input[type=checkbox]").all():
        box.check()
    tab.locator("button.go").click()
    assert tab.locator("#gate-a-2").is_visible()


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


@pytest.mark.parametrize(
    "text",
    [
        '{"kind": "benchleaf bench notes", "version": 1, "state": {"done": [1]}}',
        '{"kind": "benchleaf bench notes", "version": 1, "build": "pipit", "state": {"read": 7}}',
        '{"kind": "benchleaf bench notes", "version": 1, "build": "wren", "state": {}}',
        "not a file of ours",
    ],
)
def test_a_hostile_file_changes_nothing(tab: Tab, tmp_path: Path, text: str) -> None:
    hostile = tmp_path / "copy.json"
    hostile.write_text(text)
    tab.locator("#at-import").set_input_files(hostile)
    tab.get_by_text("nothing was changed").wait_for()


def test_a_new_revision_asks_for_what_changed_alone(tab: Tab) -> None:
    """A step that was done under another wording is asked for again; its neighbour is not."""
    for _ in range(2):
        for box in tab.locator("[data-now] input[type=checkbox]").all():
            if box.is_visible():
                box.check()
        tab.locator("button.go").click()
    tab.evaluate(
        """() => {
            const key = Object.keys(localStorage).find(k => k.startsWith("benchleaf-bench"));
            const kept = JSON.parse(localStorage.getItem(key));
            kept.done[Object.keys(kept.done)[0]] = "otherwise";
            localStorage.setItem(key, JSON.stringify(kept));
        }"""
    )
    tab.reload()
    tab.get_by_text("1 done step has changed in this revision").wait_for()
    tab.get_by_role("button", name="List").click()
    assert tab.get_by_role("button", name="Changed: ").count() == 1
    assert tab.get_by_role("button", name="✓ ").count() == 1
    tab.get_by_role("button", name="Changed: ").click()
    tab.get_by_text("This step has changed since you did it").wait_for()
    tab.locator("button.go").click()
    assert not tab.locator(".at-changed").is_visible()


def test_what_was_kept_and_cannot_be_read_is_set_aside(tab: Tab) -> None:
    tab.locator("button.go").click()
    tab.evaluate(
        """() => Object.keys(localStorage).forEach(k => localStorage.setItem(k, "{half"))"""
    )
    tab.reload()
    tab.get_by_text("it was set aside").wait_for()
    assert "{half" in str(tab.evaluate("Object.values(localStorage)"))


def test_what_is_exported_is_what_note_takes(tab: Tab, tmp_path: Path) -> None:
    """By way of the file: read here, taken in by another device, and by `benchleaf note`."""
    _type(tab, "gate-a-2", RAIL, "5,02 V")
    with tab.expect_download() as saved:
        tab.get_by_role("button", name="Export").click()
    file = tmp_path / "bench.json"
    saved.value.save_as(file)
    notes = notes_at(str(file))
    assert (notes.build, list(notes.read.values())) == ("pipit", ["5,02 V"])
    assert notes.day is not None
    tab.evaluate("localStorage.clear()")
    tab.reload()
    assert not tab.locator(RAIL).input_value()
    tab.locator("#at-import").set_input_files(file)
    tab.get_by_text("Entries taken in: ").wait_for()
    assert tab.locator(RAIL).input_value() == "5,02 V"


def test_what_does_not_work_ends_with_causes(tab: Tab) -> None:
    tab.get_by_role("button", name="This does not work").click()
    panel = tab.locator(".at-trouble")
    panel.get_by_role("button", name="video is dead").click()
    assert "look with a lens" in panel.get_by_role("status").inner_text()
    panel.get_by_role("button", name="A loose wire").first.click()
    panel.get_by_text("This is left. Fix it with the power off.").wait_for()
    assert panel.get_by_role("listitem").count() == 1
    panel.get_by_role("button", name="One back").click()
    panel.get_by_role("button", name="I see none of these").click()
    for _ in range(12):
        asked = panel.get_by_role("status").inner_text()
        if not asked.startswith("Reading"):
            break
        assert "Everything unplugged" in asked or "through the limiter" in asked
        panel.get_by_role("button", name="No", exact=True).click()
    assert panel.get_by_role("listitem").count() >= 1
    tab.get_by_role("button", name="Step", exact=True).click()
    assert not panel.is_visible()


def test_the_timer_outlasts_a_clock_that_is_set_back(tab: Tab) -> None:
    tab.get_by_role("button", name="On the field").click()
    tab.get_by_role("button", name="Start: ").first.click()
    tab.evaluate("{ const day = Date.now; Date.now = () => day() - 3600e3; }")
    tab.wait_for_timeout(1300)
    stop = tab.get_by_role("button", name="Landed: ")
    assert re.search(r", 0 min [1-9]\d* s$", stop.inner_text())  # a busy machine sees it later
    tab.evaluate(
        "{ const now = performance.now.bind(performance); performance.now = () => now() + 3600e3; }"
    )
    tab.get_by_text("Land now.").wait_for()
    stop.click()
    tab.locator('[data-write="field-landed"]').fill("7,2")
    tab.get_by_role("button", name="Keep this flight").click()
    kept = tab.locator("#field-5 li").inner_text()
    assert "landed_at: 7.2 V" in kept
    assert "airborne: 36" in kept


FULL = (
    "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };"
)
FORBIDDEN = """Object.defineProperty(window, "localStorage", {
    get() { throw new DOMException("no", "SecurityError"); } });"""


@pytest.mark.parametrize("storage", [FULL, FORBIDDEN], ids=["full", "forbidden"])
def test_where_nothing_can_be_kept_it_says_so(
    page_file: Path, browser: Browser, storage: str
) -> None:
    """Storage that is forbidden or full: one sentence, and what was typed stays on the page."""
    context = browser.new_context()
    context.add_init_script(storage)
    opened = context.new_page()
    opened.goto(page_file.as_uri())
    assert _type(opened, "gate-a-2", RAIL, "5.0") == "right"
    opened.get_by_text("export a copy before you close").wait_for()
    assert opened.locator(RAIL).input_value() == "5.0"
    context.close()


@pytest.mark.parametrize(
    ("width", "scheme"), [(390, "light"), (390, "dark"), (820, "light"), (820, "dark")]
)
def test_axe_finds_nothing_on_any_screen(
    page_file: Path, browser: Browser, tmp_path: Path, width: int, scheme: Literal["light", "dark"]
) -> None:
    """A step with a photograph, a gate with readings, the list, what does not work, the field;
    nothing is wider than the screen, and what is touched has 48 px (WCAG 2.2, 2.5.5 asks for 44).
    """
    context = browser.new_context(
        viewport={"width": width, "height": 844}, color_scheme=scheme, bypass_csp=True
    )
    opened = context.new_page()
    opened.goto(page_file.as_uri())
    picture = tmp_path / "IMG_1.png"
    Image.new("RGB", (90, 60)).save(picture)
    opened.locator("#at-camera").set_input_files(picture)
    opened.get_by_role("img", name="Photograph 1").wait_for()
    for show in ("step-weigh", "gate-a-1", "List", "This does not work", "On the field"):
        if show[0].islower():
            opened.evaluate("h => { location.hash = h; }", show)
            opened.locator(f"#{show}").wait_for()
        else:
            opened.get_by_role("button", name=show, exact=True).click()
        found = axe_violations(opened, scheme)
        assert not [(show, v["id"], [n["html"] for n in v["nodes"]]) for v in found]
        assert opened.evaluate("document.documentElement.scrollWidth") <= width, show
        small = opened.evaluate(
            """() => [...document.querySelectorAll("main button, main input")].filter(n => {
                const box = n.getBoundingClientRect();
                return box.width && (box.height < 47.5 || box.width < 47.5);
            }).map(n => n.outerHTML.slice(0, 90))"""
        )
        assert small == [], show
        if show[0].isupper():
            opened.get_by_role("button", name="Step", exact=True).click()
    context.close()


def test_its_own_files_are_light() -> None:
    files = asset_files(None)
    assert (
        sum(len(text) for name, text in files.items() if "bench" in name and ".js" in name) < WEIGHT
    )
