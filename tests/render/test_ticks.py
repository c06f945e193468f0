"""Ticks and readings at the bench, in a real browser from a file and under the page's policy: they
last, by step and part.
"""

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread

import pytest
from playwright.sync_api import Browser, BrowserContext
from playwright.sync_api import Page as Tab

from builder.pages.site.build_page import work_page
from builder.pages.site.site_pages import site_pages
from builder.pipeline.check import Checked
from builder.render.assets import asset_files
from builder.render.html.page import Renderer, template_texts

STEP = "#step-weigh > input"
READING = '[data-write="step-ring-esc-0"]'


def _publish(folder: Path, demo: Checked, build: str, revised: str) -> None:
    """The sheet of a build as if it had been revised that day."""
    page = replace(work_page(demo.sheets[build]), revised=revised)
    for address, content in asset_files(None).items():
        (folder / address).parent.mkdir(parents=True, exist_ok=True)
        (folder / address).write_bytes(content)
    target = folder / page.address
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_bytes(Renderer(template_texts(None)).page(page, site_pages(demo.workspace.site)))


@pytest.fixture
def folder(tmp_path: Path, demo: Checked) -> Path:
    for build in ("dipper", "redshank"):
        _publish(tmp_path, demo, build, "2026-10-18")
    return tmp_path


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, *args: object) -> None:
        pass

    def end_headers(self) -> None:
        self.send_header("Cache-Control", "no-store")
        super().end_headers()


@pytest.fixture(params=["file", "http"])
def address(request: pytest.FixtureRequest, folder: Path) -> Iterator[str]:
    """The folder as a browser reaches it: as files, or from a server."""
    if request.param == "file":
        yield folder.as_uri()
        return
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=str(folder)))
    thread = Thread(target=server.serve_forever)
    thread.start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()
    thread.join()
    server.server_close()


@pytest.fixture
def device(browser: Browser) -> Iterator[BrowserContext]:
    """A tablet that nobody has used yet."""
    context = browser.new_context(viewport={"width": 820, "height": 1180}, has_touch=True)
    yield context
    context.close()


def _open(device: BrowserContext, address: str, build: str = "dipper") -> Tab:
    tab = device.new_page()
    tab.goto(f"{address}/{build}/work/index.html")
    return tab


def _state(tab: Tab) -> tuple[bool, str]:
    return tab.locator(STEP).is_checked(), tab.locator(READING).input_value()


def test_ticks_and_readings_last(device: BrowserContext, address: str) -> None:
    tab = _open(device, address)
    errors: list[str] = []
    tab.on(
        "console",
        lambda m: (
            errors.append(m.text) if "Refused" in m.text or "policy" in m.text.casefold() else None
        ),
    )
    tab.on("pageerror", lambda e: errors.append(str(e)))
    assert _state(tab) == (False, "")
    tab.locator(STEP).check()
    tab.locator(READING).fill("4.7 k")
    tab.reload()
    assert _state(tab) == (True, "4.7 k")
    tab.close()
    assert _state(_open(device, address)) == (True, "4.7 k")
    assert errors == []


def test_who_comes_back_is_led_to_the_first_line_without_a_tick(
    device: BrowserContext, address: str
) -> None:
    """A line over the page says how far the work is; before the first tick there is none."""
    tab = _open(device, address)
    bar = tab.locator(".next")
    assert not bar.is_visible()
    boxes = tab.locator("ol.steps input[type=checkbox], ol.steps ~ * input[type=checkbox]")
    count = boxes.count()
    for index in range(3):
        boxes.nth(index).check()
    tab.reload()
    assert bar.inner_text() == f"3 of {count} boxes of the work ticked. To the next one"
    bar.get_by_role("link").click()
    fourth = boxes.nth(3).evaluate("box => box.closest('li[id], tr[id], section[id]').id")
    assert tab.url.endswith(f"#{fourth}")
    assert boxes.nth(3).evaluate("b => b.getBoundingClientRect().top < innerHeight")
    for index in range(3):
        boxes.nth(index).uncheck()
    assert not bar.is_visible()


def test_another_build_has_its_own(device: BrowserContext, address: str) -> None:
    tab = _open(device, address)
    tab.locator(STEP).check()
    assert _state(_open(device, address, "redshank")) == (False, "")


def test_a_new_revision_keeps_what_is_still_in_it(
    device: BrowserContext, address: str, folder: Path, demo: Checked
) -> None:
    tab = _open(device, address)
    tab.locator(STEP).check()
    tab.locator(READING).fill("12")
    _publish(folder, demo, "dipper", "2026-11-20")
    tab.reload()
    assert _state(tab) == (True, "12")


def test_a_check_of_a_gate_that_says_something_else_is_not_ticked_any_more(
    device: BrowserContext, address: str, folder: Path
) -> None:
    """A tick that stood for another limit must never pass a gate."""
    tab = _open(device, address)
    box = tab.locator("[data-tick^='gate-']").first
    name = box.get_attribute("data-tick")
    box.check()
    tab.reload()
    assert tab.locator(f"[data-tick='{name}']").is_checked()
    file = folder / "dipper" / "work" / "index.html"
    found = re.search(rf"(data-tick={name}[^>]*>)", file.read_text("utf-8"))
    assert found is not None
    file.write_text(file.read_text("utf-8").replace(found[1], found[1] + "At another limit: "))
    tab.reload()
    assert not tab.locator(f"[data-tick='{name}']").is_checked()


def test_clearing_asks_first_and_clears_all(device: BrowserContext, address: str) -> None:
    tab = _open(device, address)
    tab.locator(STEP).check()
    tab.locator(READING).fill("12")
    tab.once("dialog", lambda d: d.dismiss())
    tab.get_by_role("button", name="Clear all ticks").click()
    assert _state(tab) == (True, "12")
    tab.once("dialog", lambda d: d.accept())
    tab.get_by_role("button", name="Clear all ticks").click()
    assert _state(tab) == (False, "")
    tab.reload()
    assert _state(tab) == (False, "")


def test_unticking_lasts_too(device: BrowserContext, address: str) -> None:
    tab = _open(device, address)
    tab.locator(STEP).check()
    tab.locator(STEP).uncheck()
    tab.reload()
    assert _state(tab) == (False, "")


def test_broken_or_missing_storage_only_forgets(browser: Browser, address: str) -> None:
    """What another page left under our key is no state of ours; without storage the page works, and
    forgets.
    """
    context = browser.new_context()
    context.add_init_script(
        "Object.defineProperty(window, 'localStorage', {get() { throw new Error('none'); }})"
    )
    tab = _open(context, address)
    tab.locator(STEP).check()
    assert tab.locator(STEP).is_checked()
    tab.reload()
    assert _state(tab) == (False, "")
    context.close()
    context = browser.new_context()
    tab = _open(context, address)
    tab.locator(STEP).check()
    tab.evaluate(
        "for (const key of Object.keys(localStorage)) { localStorage.setItem(key, '[1, 2'); }"
    )
    tab.reload()
    assert _state(tab) == (False, "")
    tab.evaluate(
        "for (const key of Object.keys(localStorage)) { localStorage.setItem(key, '\"text\"'); }"
    )
    tab.reload()
    tab.locator(STEP).check()
    tab.reload()
    assert _state(tab)[0]
    context.close()
