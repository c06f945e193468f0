"""The page at the bench without its network: kept by a service worker once it was opened (W3C, Service
Workers), which goes when the site has the page no longer. A real browser, served over loopback.
"""

import json
import os
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext
from playwright.sync_api import Page as Tab

from builder.pipeline.check import Checked
from builder.render.data.away_files import away_files
from tests.render.bench_site import KEPT, served_folder, write_bench_page

ADDRESS = "pipit/bench/index.html"
NAMES = "async () => (await caches.keys()).sort()"
# The browser tells of a new worker before it has thrown the older caches away.
ONE_NAME = """async () => {
  for (let i = 0; i < 100 && (await caches.keys()).length > 1; i++) { await new Promise(r => setTimeout(r, 50)); }
  return (await caches.keys()).sort();
}"""
HELD = "async () => { const c = await caches.open((await caches.keys())[0]); return (await c.keys()).map(r => r.url); }"


@pytest.fixture
def folder(tmp_path: Path, demo: Checked) -> Path:
    """One build's page at the bench with what the site has beside it, published ten days ago: a
    browser takes what it was given for fresh for a tenth of that (RFC 9111, 4.2.2).
    """
    write_bench_page(tmp_path, demo.sheets["pipit"], demo.workspace.site)
    then = time.time() - 10 * 86_400
    for file in tmp_path.rglob("*"):
        os.utime(file, (then, then))
    return tmp_path


@pytest.fixture
def served(folder: Path) -> Iterator[str]:
    """Where the page is served."""
    with served_folder(folder) as address:
        yield f"{address}/pipit/bench/"


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """Somebody who was never here."""
    made = browser.new_context(viewport={"width": 390, "height": 844})
    yield made
    made.close()


def _kept(context: BrowserContext, served: str) -> Tab:
    """The page, opened and kept."""
    tab = context.new_page()
    tab.goto(served)
    tab.get_by_text(KEPT).wait_for()
    return tab


def test_once_opened_it_works_without_its_network(context: BrowserContext, served: str) -> None:
    tab = _kept(context, served)
    held = [url.rpartition("/")[2] for url in tab.evaluate(HELD)]
    assert {"", "bench.js", "at-bench.css"} <= set(held)
    context.set_offline(True)
    again = context.new_page()
    again.goto(served)
    again.get_by_role("button", name="Done").click()
    assert (
        again.evaluate("getComputedStyle(document.querySelector('button.go')).minHeight") == "48px"
    )
    assert again.evaluate("[...document.fonts].some(f => f.status === 'loaded')")


def test_the_network_comes_first_and_one_cache_stays(
    context: BrowserContext, served: str, folder: Path
) -> None:
    tab = _kept(context, served)
    before = tab.evaluate(NAMES)
    page = folder / ADDRESS
    newer = page.read_bytes().replace(b"at the bench</h1>", b"a newer one</h1>")
    page.write_bytes(newer)
    for address, data in away_files(ADDRESS, newer, "newer").items():
        (folder / address).write_bytes(data)
    second = context.new_page()
    second.goto(served)
    assert "a newer one" in second.locator("h1").inner_text()
    tab.get_by_text("There is a newer revision of this page: load it again.").wait_for()
    after = second.evaluate(ONE_NAME)
    assert len(before) == len(after) == 1
    assert before != after


def test_it_goes_when_the_site_has_the_page_no_longer(
    context: BrowserContext, served: str, folder: Path
) -> None:
    tab = _kept(context, served)
    for file in (folder / "pipit" / "bench").iterdir():
        file.unlink()
    (folder / "pipit" / "bench").rmdir()
    answer = tab.goto(served)
    assert answer is not None
    assert answer.status == 404
    tab.goto(served.replace("pipit/bench/", "assets/sheet.css"))
    assert tab.evaluate(NAMES) == []
    assert (
        tab.evaluate("async () => (await navigator.serviceWorker.getRegistrations()).length") == 0
    )


def test_the_manifest_is_data_of_the_page_and_its_own_folder(folder: Path) -> None:
    manifest = json.loads((folder / "pipit/bench/away.webmanifest").read_text("utf-8"))
    assert manifest["start_url"] == manifest["scope"] == "./"
    assert "Pipit" in manifest["name"]


def test_from_a_file_nothing_is_registered(context: BrowserContext, folder: Path) -> None:
    tab = context.new_page()
    problems: list[str] = []
    tab.on("pageerror", lambda e: problems.append(str(e)))
    tab.on("console", lambda m: problems.append(m.text) if m.type == "error" else None)
    tab.goto((folder / ADDRESS).as_uri())
    assert tab.locator("#away").inner_text() == ""
    assert problems == []
