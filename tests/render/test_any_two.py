"""The page for any two builds shows, cell for cell, what the static page of the pair shows; tables
sort and filter.
"""

import json
import os
from collections.abc import Iterator, Sequence
from itertools import permutations
from pathlib import Path
from shutil import copytree
from typing import Any, TypeVar

import pytest
from playwright.sync_api import Browser, Page

from builder.pages.site.site_pages import site_pages
from builder.pipeline.check import Checked, check_workspace
from builder.render.html.page import Renderer, template_texts
from tests.pages.pair_page import pair_page

T = TypeVar("T")
LONG = bool(os.environ.get("BENCHLEAF_LONG"))
# Each row of each table as [id, text of each cell]; text that a browser gives, so that hidden marks
# count too.
ROWS = """() => Object.fromEntries([...document.querySelectorAll('main .table')].filter(t => t.id).map(t => [t.id,
  [[...t.querySelectorAll('thead th')].map(c => c.textContent),
   ...[...t.querySelectorAll('tbody tr')].map(r => [r.id, ...[...r.cells].map(c => c.textContent)])]]))"""


def _pairs(builds: Sequence[T]) -> Iterator[tuple[T, T]]:
    """Each two builds in one order, so that each build is first of some and second of others; the long
    proof takes both orders.
    """
    for (at, first), (behind, second) in permutations(enumerate(builds), 2):
        if LONG or (at < behind) == (behind - at) % 2:
            yield first, second


@pytest.fixture(scope="module")
def site(lacking_demo: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The published demo site, a camera's weight and price unknown, with the page of every pair."""
    workspace = copytree(lacking_demo, tmp_path_factory.mktemp("any"), dirs_exist_ok=True)
    demo = check_workspace(workspace)
    renderer, pages = Renderer(template_texts(None)), site_pages(demo.workspace.site)
    for first, second in _pairs(tuple(demo.sheets.values())):
        page = pair_page(first, second)
        path = workspace / "site" / page.address
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(renderer.page(page, pages))
    return workspace / "site"


def _any(page: Page, site: Path, first: str, second: str) -> dict[str, Any]:
    page.goto("about:blank")
    page.goto((site / "compare/any/index.html").as_uri() + f"#{first}+{second}")
    page.wait_for_selector(f'[data-pair="{first}+{second}"]')
    found: dict[str, Any] = page.evaluate(ROWS)
    return found


def test_any_two_shows_the_cells_of_the_static_page_for_every_pair(
    browser: Browser, site: Path, demo: Checked
) -> None:
    page = browser.new_page()
    said: list[str] = []
    page.on("pageerror", lambda error: said.append(str(error)))
    page.on(
        "console", lambda message: said.append(message.text) if message.type == "error" else None
    )
    for first, second in _pairs(tuple(demo.sheets)):
        made = _any(page, site, first, second)
        notes = page.locator("#flight li").all_inner_texts()
        page.goto((site / f"compare/{first}/{second}/index.html").as_uri())
        static = page.evaluate(ROWS)
        assert set(made) == set(static)
        assert set(made) >= {"figures-weight", "figures-money", "parts-differ", "parts-same"}
        assert set(made) >= {"headline", "on-lightest", "turn"}
        assert notes == page.locator("#flight li").all_inner_texts()
        for table, rows in static.items():
            assert made[table] == rows, (first, second, table)
    assert said == []


def test_a_build_beside_itself_differs_in_nothing(browser: Browser, site: Path) -> None:
    made = _any(browser.new_page(), site, "pipit", "pipit")
    assert "parts-differ" not in made
    assert {row[-1] for row in made["figures-weight"][1:]} == {"0.0\u00a0g"}


def test_script_and_data_of_any_pair_are_at_most_200_kb(site: Path, demo: Checked) -> None:
    """The bound that the page was given: 200 kB on a slow line is two seconds (no source)."""
    script = (site / "assets" / "compare.js").stat().st_size
    largest = sorted((site / name / "sheet.js").stat().st_size for name in demo.sheets)[-2:]
    assert script + sum(largest) <= 200_000


def test_choosing_changes_the_address_and_the_address_chooses(browser: Browser, site: Path) -> None:
    page = browser.new_page()
    _any(page, site, "dipper", "curlew")
    page.get_by_label("Second").select_option("pipit")
    page.wait_for_selector('[data-pair="dipper+pipit"]')
    assert page.url.endswith("#dipper+pipit")
    page.go_back()
    page.wait_for_selector('[data-pair="dipper+curlew"]')


def test_numbers_open_their_derivation(browser: Browser, site: Path) -> None:
    page = browser.new_page()
    _any(page, site, "dipper", "dipper-light")
    page.locator("#dry a").first.click()
    page.wait_for_load_state()
    assert page.url.split("/site/")[1] == "dipper/numbers/index.html#/mass/dry"
    assert page.locator("[id='/mass/dry']").count() == 1


def test_without_scripts_the_page_lists_the_builds_and_leads_to_ready_pairs(
    browser: Browser, site: Path
) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((site / "compare/any/index.html").as_uri())
    assert page.locator("#pick tbody tr").count() == 6
    page.get_by_role("link", name="Pairs that need none").click()
    assert page.locator("#pairs li a").count() == 15


def test_the_table_of_all_builds_sorts_and_filters_by_mouse_and_keyboard(
    browser: Browser, site: Path
) -> None:
    page = browser.new_page()
    page.goto((site / "compare/index.html").as_uri())
    column = "els => els.map(e => Number(e.cells[3].dataset.sort))"
    page.get_by_role("button", name="Dry weight").click()
    rows = page.locator(".sortable tbody tr")
    up = rows.evaluate_all(column)
    assert up == sorted(up)
    assert len(set(up)) == 6
    page.get_by_role("button", name="Dry weight").press("Enter")
    assert rows.evaluate_all(column) == up[::-1] or rows.evaluate_all(column) == sorted(
        up, reverse=True
    )
    box = page.get_by_label("Filter")
    box.focus()
    page.keyboard.type("pipit")
    left = rows.locator("visible=true").count()
    assert 0 < left < len(up)
    said = page.locator(".quiet[role=status]")
    assert said.inner_text() == f"{left} of {len(up)} rows"
    box.fill("no such word")
    assert rows.locator("visible=true").count() == 0
    assert said.inner_text() == "No row has these words."


def test_what_the_sheet_publishes_is_enough_and_holds_no_text_for_markup(site: Path) -> None:
    data = json.loads((site / "pipit" / "sheet.json").read_text("utf-8"))["compare"]
    assert {f["key"] for f in data["figures"]} >= {"dry", "all-up/short", "endurance/short"}
    total = sum(p["weight"]["value"] for p in data["places"] if p["weight"] is not None)
    dry = next(f for f in data["figures"] if f["key"] == "dry")
    assert total == pytest.approx(dry["value"], abs=1e-12)
    assert b"innerHTML" not in (site / "assets" / "compare.js").read_bytes()


@pytest.mark.parametrize("width", [320, 390, 1280])
def test_figures_at_a_glance_stay_in_their_fields_also_with_words_before_them(
    browser: Browser, site: Path, width: int
) -> None:
    page = browser.new_page(viewport={"width": width, "height": 900})
    page.goto((site / "dipper/index.html").as_uri())
    fields = page.evaluate(
        "[...document.querySelectorAll('#glance .facts > div')].map(d => { const r ="
        " document.createRange(); r.selectNodeContents(d); return [d.textContent,"
        " r.getBoundingClientRect().right - d.getBoundingClientRect().right]; })"
    )
    page.close()
    assert any("at least" in text for text, _ in fields)
    assert [text for text, beyond in fields if beyond > 1] == []


@pytest.mark.parametrize("address", ["?a=no-such-build&b=dipper", "#no-such-build+dipper"])
def test_a_build_that_does_not_exist_is_said(browser: Browser, site: Path, address: str) -> None:
    page = browser.new_page()
    page.goto((site / "compare/any/index.html").as_uri() + address)
    page.wait_for_selector("[data-pair]")
    said = page.locator("#pick [role=status]").inner_text()
    assert said.startswith("There is no build no-such-build here. ")
    pair = page.locator("[data-pair]").get_attribute("data-pair")
    assert pair is not None and pair.endswith("+dipper")


def test_the_address_may_name_the_pair_in_either_way(browser: Browser, site: Path) -> None:
    page = browser.new_page()
    page.goto((site / "compare/any/index.html").as_uri() + "?a=dipper&b=pipit")
    page.wait_for_selector('[data-pair="dipper+pipit"]')
    assert "There is no build" not in page.locator("#pick [role=status]").inner_text()
