"""axe-core in a real browser, light and dark, narrow and wide; then the keyboard alone."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from builder.pages.blocks import Page
from builder.pages.derivations.numbers_page import numbers_page
from builder.pages.site.build_page import sheet_pages
from builder.pages.site.reference_page import rules_page
from builder.pages.site.site_pages import SitePages, site_pages
from builder.pipeline.check import Checked
from builder.render.assets import asset_files
from builder.render.html.page import Renderer, template_texts
from tests.pages.pair_page import pair_page
from tests.render.axe import axe_violations

KINDS = ("topic", "table")
# Rows that look like those above them: of a long table the dark page keeps as many.
CUT = (
    """() => document.querySelectorAll("tbody tr:nth-child(n + 40)").forEach(row => row.remove())"""
)


@pytest.fixture
def folder(
    tmp_path: Path, renderer: Renderer, site: SitePages, page_of: Callable[..., Page]
) -> Path:
    """A folder with every asset and the made-up page as a page of a topic and as a table."""
    for address, content in asset_files(None).items():
        (tmp_path / address).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / address).write_bytes(content)
    for kind in KINDS:
        (tmp_path / kind).mkdir()
        (tmp_path / kind / "index.html").write_bytes(renderer.page(page_of("", kind), site))
    return tmp_path


def _tab(browser: Browser, scheme: Any, width: int, *, bypass: bool) -> Any:
    context = browser.new_context(
        viewport={"width": width, "height": 900}, color_scheme=scheme, bypass_csp=bypass
    )
    return context.new_page()


def _open(
    browser: Browser, folder: Path, kind: str, scheme: str, width: int, *, bypass: bool = False
) -> Any:
    page = _tab(browser, scheme, width, bypass=bypass)
    page.goto((folder / kind / "index.html").as_uri())
    return page


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("kind", KINDS)
def test_axe_finds_nothing(
    browser: Browser, folder: Path, kind: str, scheme: str, width: int
) -> None:
    page = _open(browser, folder, kind, scheme, width, bypass=True)  # axe itself is an added script
    found = axe_violations(page, scheme)
    assert not [(v["id"], [n["html"] for n in v["nodes"]]) for v in found]
    page.context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 1280])
def test_axe_finds_nothing_in_the_open_dialog_of_units(
    browser: Browser,
    folder: Path,
    scheme: str,
    width: int,
    renderer: Renderer,
    site: SitePages,
    page_of: Callable[..., Page],
) -> None:
    with_units = replace(site, navigation=(*site.navigation, ("Units", "units/index.html")))
    made = renderer.page(page_of("", "topic"), with_units)
    (folder / "topic/index.html").write_bytes(made)
    page = _open(browser, folder, "topic", scheme, width, bypass=True)
    page.click(".top a[href$='units/index.html']")
    page.wait_for_selector("dialog[open]")
    found = axe_violations(page, scheme)
    assert not [(v["id"], [n["html"] for n in v["nodes"]]) for v in found]
    box = page.locator("dialog").bounding_box()
    assert box is not None and box["x"] >= 0 and box["x"] + box["width"] <= width
    page.context.close()


def test_facts_below_a_title_that_wrap_keep_their_frame(browser: Browser, folder: Path) -> None:
    """Each line begins at the frame: what stands first in one has no rule of its own within it."""
    page = _open(browser, folder, "topic", "light", 390)
    lines = page.evaluate(
        """() => { const state = document.querySelector('.state'), frame = state.getBoundingClientRect();
        state.innerHTML = '<span>flying</span><span>revised 2026-10-18</span><span>by The bench group (invented)</span>';
        return [...state.children].map(e => e.getBoundingClientRect()).map(r => [r.top, r.left - frame.left - 1]); }"""
    )
    assert len({top for top, _ in lines}) == 2
    firsts = [min(left for t, left in lines if t == top) for top in {top for top, _ in lines}]
    assert all(left <= -1 for left in firsts)  # its rule lies outside of what is shown
    assert page.evaluate("getComputedStyle(document.querySelector('.state')).overflow") == "hidden"
    page.context.close()


def test_from_a_file_the_policy_blocks_nothing_of_ours_and_nothing_is_wider_than_the_screen(
    browser: Browser, folder: Path
) -> None:
    for width in (390, 1280):
        page = _open(browser, folder, "topic", "light", width)
        assert page.evaluate("document.fonts.ready.then(() => document.fonts.check('16px Leaf'))")
        assert page.evaluate("getComputedStyle(document.body).fontFamily").startswith("Leaf")
        assert page.evaluate("document.documentElement.scrollWidth") == width
        page.context.close()


def test_the_keyboard_alone_reaches_everything_and_shows_where_it_is(
    browser: Browser, folder: Path
) -> None:
    page = _open(browser, folder, "topic", "light", 1280)
    wanted = page.evaluate(
        """() => { const all = [...document.querySelectorAll('a[href], input, summary, button, [tabindex="0"]')]
        .filter(e => e.checkVisibility()); all.forEach((e, i) => { e.dataset.nth = i; }); return all.length; }"""
    )
    reached = set()
    for _ in range(wanted + 2):
        page.keyboard.press("Tab")
        nth, style = page.evaluate(
            "() => [document.activeElement.dataset.nth,"
            " getComputedStyle(document.activeElement).outlineStyle]"
        )
        if nth is not None:
            reached.add(nth)
            assert style != "none", page.evaluate("document.activeElement.outerHTML")
    assert len(reached) == wanted
    page.context.close()


def test_ticks_and_readings_survive_a_reload(browser: Browser, folder: Path) -> None:
    page = _open(browser, folder, "topic", "light", 1280)
    page.locator("#step-one > input").check()
    page.locator("[data-write='v-5']").fill("5.02")
    page.reload()
    assert page.locator("#step-one > input").is_checked()
    assert not page.locator("[data-tick='step-two']").is_checked()
    assert page.locator("[data-write='v-5']").input_value() == "5.02"
    page.on("dialog", lambda dialog: dialog.accept())
    page.locator("button.reset").click()
    page.reload()
    assert not page.locator("#step-one > input").is_checked()
    assert page.locator("[data-write='v-5']").input_value() == ""
    page.context.close()


def test_without_javascript_the_page_reads_the_same(browser: Browser, folder: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((folder / "table" / "index.html").as_uri())
    assert "Dry weight" in page.inner_text("main")
    assert page.locator("button").count() == 0
    context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_sees_a_colour_that_is_too_faint_in_either_scheme(
    browser: Browser, folder: Path, scheme: str
) -> None:
    page = _open(browser, folder, "topic", scheme, 390, bypass=True)
    page.evaluate("document.querySelector('main p').style.color = '#888880'")
    page.evaluate("document.querySelector('main p').style.background = '#808080'")
    assert [v["id"] for v in axe_violations(page, scheme)] == ["color-contrast"]
    page.context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_on_pages_of_the_demo(
    browser: Browser, tmp_path: Path, demo: Checked, scheme: str
) -> None:
    """The pages whose blocks the made-up page does not hold: the bench, the numbers, a pair, the
    rules.
    """
    site = site_pages(demo.workspace.site)
    made = demo.sheets["pipit"]
    pages = (
        *sheet_pages(made),
        numbers_page(made, made.figures),
        pair_page(demo.sheets["dipper"], made),
        rules_page(),
    )
    for address, content in asset_files(None).items():
        (tmp_path / address).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / address).write_bytes(content)
    found = {}
    tab = _tab(browser, scheme, 390, bypass=True)
    for page in pages:
        target = tmp_path / page.address
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(Renderer(template_texts(None)).page(page, site))
        tab.goto(target.as_uri())
        if scheme == "dark":
            tab.evaluate(CUT)
        found[page.address] = [v["id"] for v in axe_violations(tab, scheme)]
    tab.context.close()
    assert found == {page.address: [] for page in pages}
