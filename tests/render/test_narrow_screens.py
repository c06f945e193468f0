"""Every kind of page on screens from 320 px (WCAG 2.2, success criterion 1.4.10): no table goes on
beyond an edge, nothing scrolls sideways but drawings that say so, and cards are still tables to who
hears them.
"""

from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from builder.pages.blocks import Cell, Column, Row, Span, Table
from builder.pipeline.published import Published
from builder.render.html.inline_html import HtmlContext
from builder.render.html.table_html import table

PAGES = (
    "index.html",
    "404.html",
    "dipper/index.html",
    "dipper/work/index.html",
    "redshank/index.html",
    "compare/index.html",
    "compare/any/index.html",
    "compare/dipper/dipper-light/index.html",
    "parts/motor-1404/index.html",
    "rules/index.html",
    "fields/index.html",
    "dipper/numbers/index.html",
)
# Tables whose cells stand beyond the screen or their frame; and what scrolls sideways unsaid.
BEYOND = """() => {
  document.querySelectorAll("details").forEach(d => { d.open = true; });
  const width = document.documentElement.clientWidth, out = [];
  for (const t of document.querySelectorAll("table")) {
    const cells = [...t.querySelectorAll("td, th")].map(c => c.getBoundingClientRect().right);
    if (Math.max(...cells) > width + 1) { out.push(t.closest("[id]").id + " beyond the screen"); }
  }
  for (const e of document.querySelectorAll("main *")) {
    if (e.scrollWidth <= e.clientWidth + 1 || !["auto", "scroll"].includes(getComputedStyle(e).overflowX)) { continue; }
    const said = e.parentElement.querySelector(".sideways");
    if (!said || !said.checkVisibility()) { out.push(e.className + " scrolls unsaid"); }
  }
  if (document.documentElement.scrollWidth > width) { out.push("the page scrolls sideways"); }
  return out;
}"""
# Numbers whose unit stands on another line.
PARTED = """() => [...document.querySelectorAll("main a, main td, main dd")].flatMap(e => {
  const found = [];
  for (const node of e.childNodes) {
    const unit = node.nextSibling;
    if (node.nodeType !== 3 || !/\\d$/.test(node.textContent) || !unit || unit.nodeName !== "I") { continue; }
    const range = document.createRange();
    range.setStart(node, node.length - 1);
    range.setEnd(node, node.length);
    const a = range.getBoundingClientRect(), b = unit.getBoundingClientRect();
    if (a.width && (b.top >= a.bottom || b.bottom <= a.top)) { found.push(e.textContent); }
  }
  return found;
})"""


def _tab(browser: Browser, width: int) -> Any:
    return browser.new_context(viewport={"width": width, "height": 844}).new_page()


def _open(tab: Any, file: Path) -> None:
    tab.goto(file.as_uri())
    tab.evaluate("document.fonts.ready")
    tab.wait_for_timeout(150)  # the page of any two builds fills itself in


@pytest.mark.parametrize("width", [320, 390, 820, 1280])
def test_nothing_stands_beyond_an_edge_and_no_unit_leaves_its_number(
    browser: Browser, published_demo: tuple[Path, Published], width: int
) -> None:
    site = published_demo[0] / "site"
    found = {}
    tab = _tab(browser, width)
    for address in PAGES:
        _open(tab, site / address)
        found[address] = [*tab.evaluate(BEYOND), *tab.evaluate(PARTED)]
    tab.context.close()
    assert found == {address: [] for address in PAGES}


def test_cards_are_rows_and_cells_to_who_hears_them_and_say_their_headings(
    browser: Browser, published_demo: tuple[Path, Published]
) -> None:
    """Roles as the browser hands them on (Core Accessibility API Mappings), narrow as wide."""
    file = published_demo[0] / "site" / "compare" / "index.html"
    counts = []
    for width in (320, 1280):
        tab = _tab(browser, width)
        _open(tab, file)
        tree = tab.context.new_cdp_session(tab).send("Accessibility.getFullAXTree")["nodes"]
        roles = [n["role"]["value"] for n in tree if not n.get("ignored") and "role" in n]
        counts.append({role: roles.count(role) for role in ("table", "row", "cell", "rowheader")})
        if width == 320:
            assert (
                tab.evaluate("getComputedStyle(document.querySelector('#all tbody tr')).display")
                == "grid"
            )
            said = tab.evaluate(
                "getComputedStyle(document.querySelector('#all td:nth-child(4)'), '::before').content"
            )
            assert "Dry weight" in tab.evaluate(
                "document.querySelector('#all td:nth-child(4)').dataset.l"
            )
            assert said not in ("none", "normal")
        tab.context.close()
    assert counts[0] == counts[1]
    assert counts[0]["row"] > 5
    assert counts[0]["cell"] > 20


def _table(*cells: str) -> Table:
    columns = tuple([Column(f"Heading {i}") for i, _ in enumerate(cells)])
    return Table("Made up", columns, (Row(tuple([Cell((Span(c),)) for c in cells])),))


def test_a_table_that_fits_the_narrowest_screen_stays_one_and_carries_no_labels() -> None:
    w = HtmlContext("")
    assert "data-l" not in table(_table("M2", "8 g"), w)
    assert "class=table>" in table(_table("M2", "8 g"), w)
    wide = table(_table("M2", *["a text of some length"] * 5), w)
    assert 'data-l="Heading 3"' in wide
    assert 'class="table n' in wide


def test_an_empty_cell_has_no_label() -> None:
    columns = tuple([Column(f"A rather long heading {i}") for i in range(6)])
    rows = (Row((Cell((Span("x"),)), Cell(), *[Cell((Span("long enough for that"),))] * 4)),)
    made = table(Table("", columns, rows), HtmlContext(""))
    assert made.count("data-l") == 4
