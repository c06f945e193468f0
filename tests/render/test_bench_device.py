"""What the page at the bench asks of a device: photographs and what is kept of them, storage that is
full or forbidden, two tabs at once, the screen kept awake. Stand-ins for the browser's own
interfaces (W3C: Screen Wake Lock, Indexed Database; WHATWG: Storage) say what it was asked for.
"""

import io
import json
import shutil
from base64 import b64decode
from collections.abc import Iterator
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Browser, BrowserContext, Route
from playwright.sync_api import Page as Tab

from builder.load.files import load
from builder.model.read.workspace import read_workspace
from builder.pages.bench.bands import bands_of
from builder.pages.sheet_input import SheetInput
from builder.pipeline.check import judged_alone
from tests.render.bench_site import write_bench_page

SHORT = '[data-write="gate-A-r0"]'  # battery plus to minus
STEP = "#step-weigh"


@pytest.fixture(scope="module")
def sheet(root: Path) -> SheetInput:
    return judged_alone(read_workspace(load(root)).builds["pipit"])


@pytest.fixture(scope="module")
def page_file(tmp_path_factory: pytest.TempPathFactory, sheet: SheetInput, root: Path) -> Path:
    folder = tmp_path_factory.mktemp("device")
    return write_bench_page(folder, sheet, read_workspace(load(root)).site)


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    made = browser.new_context(viewport={"width": 390, "height": 844})
    yield made
    made.close()


def _open(context: BrowserContext, page_file: Path, before: str = "") -> Tab:
    tab = context.new_page()
    tab.on("pageerror", lambda e: pytest.fail(str(e)))
    if before:
        tab.add_init_script(before)
    tab.goto(page_file.as_uri())
    return tab


def _photograph(folder: Path, size: tuple[int, int] = (3000, 1500)) -> Path:
    """A camera's picture, on its side, with the place in it (Exif 2.3)."""
    exif, file = Image.Exif(), folder / "IMG_1.jpg"
    exif[0x0112] = 6  # turned a quarter
    exif[0x8825] = {1: "N", 2: (47.0, 0.0, 0.0)}
    Image.new("RGB", size, (30, 90, 160)).save(file, exif=exif)
    return file


def _saved(tab: Tab, button: str, into: Path) -> Path:
    with tab.expect_download() as saved:
        tab.get_by_role("button", name=button).click()
    saved.value.save_as(into)
    return into


def test_a_photograph_stays_at_its_step(
    context: BrowserContext, page_file: Path, tmp_path: Path, browser: Browser
) -> None:
    """Upright, smaller, without the place; after a reload still there, and taken along by a file."""
    tab = _open(context, page_file)
    camera = tab.get_by_label("Photograph of this step")
    assert camera.get_attribute("capture") == "environment"
    camera.set_input_files(_photograph(tmp_path))
    shown = tab.get_by_role("img", name="Photograph 1")
    shown.wait_for()
    tab.get_by_label("What it shows").fill("All parts on the scale")
    tab.get_by_role("button", name="Done").click()
    shown.wait_for(state="detached")
    tab.close()
    tab = _open(context, page_file)
    tab.get_by_role("button", name="Back").click()
    shown = tab.get_by_role("img", name="Photograph 1")
    shown.wait_for()
    assert tab.get_by_label("What it shows").input_value() == "All parts on the scale"
    file = _saved(tab, "Export photographs: 1", tmp_path / "photos.json")
    given = json.loads(file.read_text("utf-8"))
    one = given["photos"][0]
    assert (given["build"], one["step"], one["words"]) == (
        "pipit",
        "weigh",
        "All parts on the scale",
    )
    with Image.open(io.BytesIO(b64decode(one["data"]))) as image:
        assert image.size == (800, 1600)
        assert not image.getexif()
    other = browser.new_context()
    second = _open(other, page_file)
    second.locator("#at-import").set_input_files(file)
    second.get_by_text("Photographs taken in: 1").wait_for()
    second.get_by_role("img", name="Photograph 1").wait_for()
    second.locator("#at-import").set_input_files(file)
    second.get_by_text("Photographs taken in: 0").wait_for()
    second.get_by_role("button", name="Take out").click()
    second.get_by_role("button", name="Take out for good?").click()
    second.get_by_role("img", name="Photograph 1").wait_for(state="detached")
    other.close()


@pytest.mark.parametrize("name", ["note.txt", "drawing.svg", "half.jpg"])
def test_what_is_no_photograph_is_one_sentence(
    context: BrowserContext, page_file: Path, tmp_path: Path, name: str
) -> None:
    odd = tmp_path / name
    odd.write_bytes(b"<svg xmlns='http://www.w3.org/2000/svg'/>" if "svg" in name else b"\xff\xd8")
    tab = _open(context, page_file)
    tab.get_by_label("Photograph of this step").set_input_files(odd)
    tab.get_by_text("no picture that this browser can read").wait_for()
    assert tab.get_by_role("img", name="Photograph").count() == 0


FULL = """IDBObjectStore.prototype.put = function () {
    this.transaction.abort();
    return IDBObjectStore.prototype.get.call(this, ["", ""]);
};"""
FORBIDDEN = "IDBFactory.prototype.open = () => { throw new DOMException('no', 'SecurityError'); };"


@pytest.mark.parametrize("before", [FULL, FORBIDDEN], ids=["full", "forbidden"])
def test_a_photograph_that_cannot_be_kept_can_be_exported(
    context: BrowserContext, page_file: Path, tmp_path: Path, before: str
) -> None:
    tab = _open(context, page_file, before)
    tab.get_by_label("Photograph of this step").set_input_files(_photograph(tmp_path, (90, 60)))
    tab.get_by_text("export the photographs before you close the page").wait_for()
    tab.get_by_role("img", name="Photograph 1").wait_for()
    file = _saved(tab, "Export photographs: 1", tmp_path / "photos.json")
    assert len(json.loads(file.read_text("utf-8"))["photos"]) == 1


@pytest.mark.parametrize(
    "photos",
    ["x", [7], [{"id": "a", "step": "weigh", "day": "x", "words": "", "data": 3}], [{}] * 61],
    ids=["text", "number", "no-data", "many"],
)
def test_a_hostile_file_of_photographs_changes_nothing(
    context: BrowserContext, page_file: Path, tmp_path: Path, photos: object
) -> None:
    file, kind = tmp_path / "photos.json", "benchleaf bench photographs"
    file.write_text(json.dumps({"kind": kind, "version": 1, "build": "pipit", "photos": photos}))
    tab = _open(context, page_file)
    tab.locator("#at-import").set_input_files(file)
    tab.get_by_text("nothing was changed").wait_for()
    assert not tab.get_by_role("button", name="Export photographs").is_visible()


def test_bytes_that_are_no_picture_are_not_taken_in(
    context: BrowserContext, page_file: Path, tmp_path: Path
) -> None:
    one = {"id": "a", "step": "weigh", "day": "2026-11-20", "words": "<b>", "data": "AAAA"}
    whole = {"kind": "benchleaf bench photographs", "version": 1, "build": "pipit"}
    file = tmp_path / "photos.json"
    file.write_text(json.dumps({**whole, "photos": [one, {**one, "id": "b", "data": "%"}]}))
    tab = _open(context, page_file)
    tab.locator("#at-import").set_input_files(file)
    tab.get_by_text("No picture, or no room for it: 2").wait_for()


def test_no_file_passes_a_danger_reading(
    context: BrowserContext, page_file: Path, sheet: SheetInput, tmp_path: Path
) -> None:
    """Notes that say every step is done and every box ticked: a gate without its readings, or with a
    wrong one, stays open, and the next waits for it.
    """
    first = _open(context, page_file)
    screens = first.evaluate(
        "JSON.parse(document.getElementById('bench-data').textContent).screens"
    )
    first.close()
    done = {s["id"]: s["wording"] for s in screens}
    short = next(b for b in bands_of(sheet) if b.key == "gate-A-r0")
    state = {"done": done, "read": {short.name: "0.3"}, "boxes": {f"passed|{short.name}": "1"}}
    file = tmp_path / "notes.json"
    whole = {"kind": "benchleaf bench notes", "version": 1, "build": "pipit", "state": state}
    file.write_text(json.dumps(whole))
    tab = _open(context, page_file)
    tab.locator("#at-import").set_input_files(file)
    tab.get_by_text("Entries taken in: ").wait_for()
    tab.get_by_role("button", name="List").click()
    assert tab.get_by_role("button", name="✓ 1. Ohms").count() == 0
    assert tab.get_by_role("button", name="✓ ").count() > 5
    tab.evaluate("location.hash = 'gate-a-2'")
    tab.get_by_role("alert").get_by_text("put no power on").wait_for()


def test_two_tabs_lose_nothing_of_each_other(context: BrowserContext, page_file: Path) -> None:
    """The second one slept while the first wrote (no event reached it), and writes then."""
    asleep = _open(
        context, page_file, "addEventListener('storage', e => e.stopImmediatePropagation());"
    )
    awake = _open(context, page_file)
    awake.evaluate("location.hash = 'gate-a-1'")
    awake.locator(SHORT).fill("OL")
    asleep.locator(f"{STEP} > input").check()
    third = _open(context, page_file)
    assert third.locator(SHORT).input_value() == "OL"
    assert third.locator(f"{STEP} > input").is_checked()


def test_a_flight_outlasts_a_page_that_is_closed(context: BrowserContext, page_file: Path) -> None:
    tab = _open(context, page_file)
    tab.get_by_role("button", name="On the field").click()
    tab.get_by_role("button", name="Start: ").first.click()
    tab.close()
    tab = _open(context, page_file)
    tab.get_by_role("button", name="On the field").click()
    tab.get_by_role("button", name="Landed: ").click()
    tab.get_by_text("In the air: ").wait_for()
    tab.reload()
    tab.get_by_role("button", name="On the field").click()
    assert tab.get_by_role("button", name="Start: ").count() >= 1


@pytest.mark.parametrize("lost", ["bench.js", "bench-judge.js"])
def test_where_a_script_is_lost_the_list_is_whole(
    context: BrowserContext, page_file: Path, tmp_path: Path, lost: str
) -> None:
    """At once where another script of the page sees it, else after some seconds; a picture that is
    lost changes nothing.
    """
    site = tmp_path / "site"
    shutil.copytree(page_file.parents[2], site)
    (site / "assets" / lost).unlink()
    tab = context.new_page()
    tab.goto((site / "pipit/bench/index.html").as_uri())
    tab.evaluate("document.getAnimations().forEach(a => a.finish())")
    for section in ("#to-gate-a", "#gate-a-1", "#field", "#trouble"):
        assert tab.locator(section).is_visible(), section


def test_nothing_moves_when_the_steps_come(context: BrowserContext, page_file: Path) -> None:
    """Shifts of the layout (W3C, Layout Instability): none, at the width of a phone."""
    shifts = """window.moved = 0;
    new PerformanceObserver(list => list.getEntries().forEach(e => { moved += e.value; }))
        .observe({ type: "layout-shift", buffered: true });"""
    tab = _open(context, page_file, shifts)
    tab.locator(STEP).wait_for()
    tab.wait_for_timeout(500)
    assert tab.evaluate("moved") < 0.01


LOCK = """window.asked = [];
const lock = { request: kind => {
    asked.push(kind);
    return REFUSED ? Promise.reject(new DOMException("low battery", "NotAllowedError"))
        : Promise.resolve({ release: () => { asked.push("released"); return Promise.resolve(); } });
} };
Object.defineProperty(navigator, "wakeLock", { value: lock });
let seen = "visible";
Object.defineProperty(document, "visibilityState", { get: () => seen });
window.turn = to => { seen = to; document.dispatchEvent(new Event("visibilitychange")); };"""


def test_the_screen_is_kept_awake_while_it_is_seen(
    context: BrowserContext, page_file: Path
) -> None:
    tab = _open(context, page_file, LOCK.replace("REFUSED", "false"))
    assert tab.evaluate("asked") == ["screen"]
    assert tab.locator("#awake").inner_text() == ""
    tab.evaluate("turn('hidden')")
    assert tab.evaluate("asked") == ["screen", "released"]
    tab.evaluate("turn('visible')")
    assert tab.evaluate("asked") == ["screen", "released", "screen"]


def test_a_refused_wake_lock_is_a_sentence(context: BrowserContext, page_file: Path) -> None:
    tab = _open(context, page_file, LOCK.replace("REFUSED", "true"))
    tab.get_by_text("Set a longer time-out in the device's settings").wait_for()
    assert "This browser cannot" in tab.locator("#awake").inner_text()


PERSIST = """window.asked = 0;
const store = { persist: () => { asked += 1; return ANSWER; } };
Object.defineProperty(navigator, "storage", { value: store });"""


@pytest.mark.parametrize(
    ("answer", "said"),
    [
        ("Promise.resolve(true)", ""),
        ("Promise.resolve(false)", "may clear"),
        ("Promise.reject(new TypeError('no'))", "may clear"),
    ],
)
def test_lasting_storage_is_asked_for_once_there_is_something_to_lose(
    context: BrowserContext, page_file: Path, answer: str, said: str
) -> None:
    tab = _open(context, page_file, PERSIST.replace("ANSWER", answer))
    assert tab.evaluate("asked") == 0
    tab.locator(f"{STEP} > input").check()
    tab.get_by_role("button", name="Done").click()
    if said:
        tab.locator("#lasting").get_by_text(said).wait_for()
    assert tab.evaluate("asked") == 1
    assert said in tab.locator("#lasting").inner_text()
    assert bool(said) == bool(tab.locator("#lasting").inner_text())


def test_over_plain_http_the_page_says_what_it_cannot_do(
    context: BrowserContext, page_file: Path
) -> None:
    """In a local network without https there is no worker, no wake lock and no lasting storage
    (W3C, Secure Contexts): each is said, and the steps work.
    """
    site = page_file.parents[2]

    def answer(route: Route) -> None:
        path = route.request.url.partition("sheets.test/")[2].partition("?")[0]
        route.fulfill(path=site / (path + "index.html" if path.endswith("/") else path))

    context.route("http://sheets.test/**", answer)
    tab = context.new_page()
    tab.on("pageerror", lambda e: pytest.fail(str(e)))
    tab.goto("http://sheets.test/pipit/bench/")
    assert not tab.evaluate("isSecureContext")
    assert "not https" in tab.locator("#awake").inner_text()
    assert "not https" in tab.locator("#away").inner_text()
    tab.get_by_role("button", name="Done").click()
    tab.locator("#lasting").get_by_text("may clear").wait_for()
    assert not tab.locator(STEP).is_visible()
