"""The map of pages: each section, step and row is on the page that the map names, old addresses
lead there, and nothing of safety is lost on the way from one long page to a short sheet.
"""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from functools import cache
from html.parser import HTMLParser
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from builder.diagnostics.finding import Signal
from builder.model.values.names import PICTURE, name_mistake
from builder.pages.blocks import Notice, Section
from builder.pages.page_map import (
    NUMBERS,
    PAGES_OF_BUILD,
    SHEET,
    WORK,
    BuildPage,
    address_of,
    page_address,
    page_with,
)
from builder.pages.sheet_input import SheetInput
from builder.pages.site.build_page import all_pages, sheet_pages, whole_sections
from builder.pipeline.check import Checked
from builder.pipeline.owners import addresses_of
from builder.pipeline.published import Published
from builder.rules.cautions import cautions_for

NAMES = ("curlew", "dipper", "dipper-light", "pipit", "redshank", "turnstone")
# Anchors as they were published when a build had one long page and one for the bench, a few of each
# kind: whoever linked to one of them is still led to what it named.
ON_THE_LONG_PAGE = (
    *("before", "caution-pack", "caution-propellers", "parts", "parts-table", "screw-list"),
    *("screws", "alternatives", "alternatives-table", "weight", "limits", "reconciliation"),
    *("weight-table", "balance", "balance-table", "hover-shares", "budget", "budget-build"),
    *("budget-packs", "budget-once", "wiring", "wiring-drawing", "board-esc", "pin-esc-BATplus"),
    *("motors", "serial", "cuts", "power", "order", "flight", "flight-figures", "full-throttle"),
    *("pack-sizes", "packs-by-size", "flight-style", "flight-log", "questions", "ask-rain"),
    *("changes", "change-2", "not-judged", "how-made"),
)
ON_THE_BENCH_PAGE = (
    *("lay-out", "order", "step-screws", "at-gate-a", "as-built", "first-power-up", "gate-a"),
    *("gate-a-1", "setup", "radio", "channel-table", "setup-tests", "setup-motors", "upkeep"),
    *("upkeep-first", "upkeep-crash", "upkeep-history"),
)


class _Ids(HTMLParser):
    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found += [value for name, value in attrs if name == "id" and value is not None]


@cache
def _ids(file: Path) -> list[str]:
    return _Ids(file.read_text("utf-8")).found


@pytest.fixture(scope="module")
def site(published_demo: tuple[Path, Published]) -> Path:
    return published_demo[0] / "site"


@pytest.mark.parametrize("anchor", [*ON_THE_LONG_PAGE, *ON_THE_BENCH_PAGE])
def test_an_anchor_keeps_its_name_on_the_page_that_the_map_says(site: Path, anchor: str) -> None:
    file, _, name = address_of("dipper", anchor).partition("#")
    assert name == anchor
    assert anchor in _ids(site / file)


@pytest.mark.parametrize("name", NAMES)
def test_every_section_of_every_build_is_on_the_page_that_the_map_says(
    demo: Checked, name: str
) -> None:
    sheet = demo.sheets[name]
    pages = {p.address: p for p in all_pages(sheet, sheet.figures)}
    held = {p.anchor for page in PAGES_OF_BUILD for p in page.holds}
    shown = 0
    for page in PAGES_OF_BUILD:
        for section in pages[page_address(name, page)].sections:
            if section.anchor in held:
                assert page_with(section.anchor) is page, section.anchor
                shown += 1
    assert shown >= 15


def test_the_map_names_no_anchor_twice() -> None:
    named = [a for page in PAGES_OF_BUILD for p in page.holds for a in (p.anchor, *p.within)]
    assert len(named) == len(set(named)) > 30
    with pytest.raises(KeyError):
        page_with("no-such-thing")


@pytest.mark.parametrize("page", PAGES_OF_BUILD, ids=lambda p: p.name or "sheet")
def test_each_page_has_an_owner_and_its_name_is_kept_from_pictures(page: BuildPage) -> None:
    assert f"dipper/{page.file}" in addresses_of("build:dipper")
    if page.name:
        assert name_mistake(page.name, PICTURE) is not None
    assert f"/{page.file}" in page_address("dipper", page)


def _open(browser: Browser, address: str, *, script: bool = True) -> Page:
    context = browser.new_context(
        viewport={"width": 390, "height": 844}, java_script_enabled=script
    )
    page = context.new_page()
    page.goto(address)
    return page


@pytest.mark.parametrize(
    ("old", "anchor"),
    [
        *(("dipper/index.html", a) for a in ("wiring", "pin-esc-BATplus", "caution-pack", "order")),
        *(("dipper/index.html", a) for a in ("not-judged", "change-2", "ask-rain", "limits")),
        *(
            ("dipper/work/index.html", a)
            for a in ("setup", "upkeep-first", "upkeep-history", "radio")
        ),
    ],
)
def test_an_old_address_leads_to_where_it_is_now(
    browser: Browser, site: Path, old: str, anchor: str
) -> None:
    page = _open(browser, f"{(site / old).as_uri()}#{anchor}")
    page.wait_for_url(f"**/{address_of('dipper', anchor)}")
    assert page.locator(f"[id='{anchor}']").count() == 1
    page.context.close()


def test_an_address_within_the_page_is_not_led_away(browser: Browser, site: Path) -> None:
    for address in ("dipper/index.html#glance", "dipper/work/index.html#order"):
        page = _open(
            browser, f"{(site / address.partition('#')[0]).as_uri()}#{address.partition('#')[2]}"
        )
        page.wait_for_timeout(200)
        assert page.url.endswith(address)
        page.context.close()


def test_without_a_script_a_plain_list_leads_on(browser: Browser, site: Path) -> None:
    page = _open(browser, f"{(site / 'dipper/index.html').as_uri()}#wiring", script=False)
    line = page.locator(".moved li#wiring a")
    assert line.is_visible()
    line.click()
    assert page.url.endswith("dipper/wiring/index.html#wiring")
    page.context.close()
    for old, listed in (("dipper/index.html", SHEET), ("dipper/work/index.html", WORK)):
        assert set(listed.formerly) <= set(_ids(site / old))


def _notices(value: object) -> Iterator[Notice]:
    if isinstance(value, Notice):
        yield value
    elif isinstance(value, tuple):
        for inner in value:
            yield from _notices(inner)
    elif is_dataclass(value) and not isinstance(value, type):
        for field in fields(value):
            yield from _notices(getattr(value, field.name))


def _said(sections: tuple[Section, ...]) -> set[tuple[str, str]]:
    return {(n.title, _words(n)) for n in _notices(sections) if n.signal is not None}


def _words(notice: Notice) -> str:
    return "".join(getattr(p, "text", getattr(p, "value", "")) for p in notice.pieces)


@pytest.mark.parametrize("name", NAMES)
def test_every_caution_is_whole_at_the_bench_and_the_grave_ones_stay_on_the_sheet(
    demo: Checked, name: str
) -> None:
    sheet: SheetInput = demo.sheets[name]
    pages = {p.address: p for p in sheet_pages(sheet)}
    work = _said(pages[page_address(name, WORK)].sections)
    short = {n.title: n.signal for n in _notices(pages[f"{name}/index.html"].sections)}
    for caution in cautions_for(sheet.build):
        assert (caution.title, caution.text) in work
        if caution.signal in (Signal.DANGER, Signal.WARNING):
            assert short[caution.title] is caution.signal
    for finding in sheet.verdict.findings:
        if finding.signal in (Signal.DANGER, Signal.WARNING):
            assert str(finding.message) in short


@pytest.mark.parametrize("name", NAMES)
def test_what_full_throttle_overloads_stays_on_the_sheet(demo: Checked, name: str) -> None:
    """A warning that a section gives by itself, not by the list of cautions."""
    sheet = demo.sheets[name]
    over = [r.what for r in sheet.results.flight.limits if r.over]
    page = next(p for p in sheet_pages(sheet) if p.address == f"{name}/index.html")
    titles = " ".join(n.title for n in _notices(page.sections) if n.signal is Signal.WARNING)
    assert all(what in titles for what in over)


@pytest.mark.parametrize(
    ("page", "keys"),
    [
        ("setup", ("propellers", "pack")),
        ("flight", ("pack", "goggles")),
        ("work", ("iron", "pack")),
    ],
)
def test_cautions_stand_whole_where_they_arise(
    demo: Checked, page: str, keys: tuple[str, ...]
) -> None:
    sheet = demo.sheets["dipper"]
    found = {p.address: p for p in sheet_pages(sheet)}[f"dipper/{page}/index.html"]
    first = _said(found.sections[:1])
    wanted = {(c.title, c.text) for c in cautions_for(sheet.build) if c.key in keys}
    assert len(wanted) == len(keys) and wanted <= first


def test_each_section_is_made_once(demo: Checked) -> None:
    """The short sheet picks from what the topic pages show: a figure on both is one figure."""
    sheet = demo.sheets["dipper"]
    whole = whole_sections(sheet)
    pages = sheet_pages(sheet, whole)
    shown = [s for p in pages[1:] for s in p.sections if s.anchor in whole]
    assert shown and all(s is whole[s.anchor] for s in shown)
    assert NUMBERS.file not in {p.address.partition("/")[2] for p in pages}


def test_the_reference_shows_the_map(site: Path) -> None:
    text = (site / "fields" / "index.html").read_text("utf-8")
    assert "pages" in _ids(site / "fields" / "index.html")
    for page in PAGES_OF_BUILD:
        assert page.reader in text
        for placed in page.holds:
            assert f"#{placed.anchor}" in text
