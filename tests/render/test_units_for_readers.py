"""Units for the reader in a real browser: each figure of a sheet in both systems, and what stays.

The factors here are written down once more, from NIST SP 811 (2008), appendix B (from memory; exact
by definition): 1 oz (avoirdupois) = 28.349 523 125 g, 1 in = 25.4 mm, 1 ft = 0.3048 m, t/degF = 1.8
t/degC + 32. Nothing of the script or of the code for paper is used to work out what is expected.
"""

import re
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from builder.pages.paper.bench_page import bench_page
from builder.pages.site.build_page import all_pages
from builder.pages.site.site_pages import site_pages
from builder.pages.site.units_page import units_page
from builder.pages.units.in_units import in_units
from builder.pipeline.check import Checked
from builder.render.assets import asset_files
from builder.render.html.page import Renderer, template_texts

ALL = "oz in degF"
SIZE = {  # what one of the other unit is in metric, and the other unit's name
    "g": (Fraction("28.349523125"), "oz"),
    "mm": (Fraction("25.4"), "in"),
    "m": (Fraction("0.3048"), "ft"),
    "°C": (Fraction(5, 9), "°F"),
}
COARSEST, FINEST = Fraction(3), Fraction(1, 4)  # the last digit's worth over what it was in metric
NUMBER = r"[+\u2212]?\d+(?:\.\d+)?"
FIGURE = re.compile(rf"^\u00a0(g|mm|m|°C)(?:\u00a0±\u00a0({NUMBER}))?$")
# Each element that has a unit, with the text before it, its table and where it leads.
FIGURES = """[...document.querySelectorAll("main i")].map(i => [i.previousSibling ? i.previousSibling.nodeValue || "" : "",
i.textContent, i.closest("table")?.caption?.textContent || "", i.parentNode.hash || ""])"""
TEXTS = """(() => { const out = [], walk = document.createTreeWalker(document.querySelector("main"), NodeFilter.SHOW_TEXT);
while (walk.nextNode()) out.push(walk.currentNode.nodeValue); return out; })()"""
WATCH = """window.moved = 0; new PerformanceObserver(list => { for (const e of list.getEntries()) window.moved += e.value; })
.observe({type: "layout-shift", buffered: true});
new MutationObserver(() => { if (document.documentElement.className === "fonts-had" && window.seen === undefined) {
  window.seen = document.querySelector("main") ? document.querySelector("main").textContent : ""; } })
.observe(document, {attributes: true, subtree: true, attributeFilter: ["class"]});"""
NO_STORAGE = """Object.defineProperty(window, "localStorage", {get() { throw new DOMException("no", "SecurityError"); }});"""


@pytest.fixture(scope="module")
def root(tmp_path_factory: pytest.TempPathFactory, demo: Checked) -> Path:
    """The pages of a build, its paper twice (as it is, and as paper is printed in other units)."""
    folder = tmp_path_factory.mktemp("units")
    site, sheet = site_pages(demo.workspace.site), demo.sheets["dipper"]
    paper = bench_page(sheet)
    printed = replace(in_units(paper, ALL), address="printed/index.html")
    renderer = Renderer(template_texts(None))
    made = {
        p.address: renderer.page(p, site)
        for p in (*all_pages(sheet, sheet.figures), paper, units_page(), printed)
    }
    inches = replace(site, units="in")
    made["inches/index.html"] = renderer.page(
        replace(units_page(), address="inches/index.html"), inches
    )
    for address, content in {**made, **asset_files(None)}.items():
        (folder / address).parent.mkdir(parents=True, exist_ok=True)
        (folder / address).write_bytes(content)
    return folder


PAGES = ("", "parts/", "buy/", "drawings/", "wiring/", "work/", "setup/", "flight/", "bench-sheet/")


def _context(
    browser: Browser, chosen: str | None, width: int = 1280, **more: bool
) -> BrowserContext:
    context = browser.new_context(viewport={"width": width, "height": 844}, **more)  # type: ignore[arg-type]
    if chosen is not None:
        context.add_init_script(f"localStorage.setItem('benchleaf:units', '{chosen}')")
    return context


def _at(context: BrowserContext, root: Path, address: str) -> Page:
    tab = context.new_page()
    tab.goto((root / address / "index.html").as_uri())
    tab.evaluate("document.fonts.ready")
    return tab


@pytest.fixture(scope="module")
def both(browser: Browser, root: Path) -> Iterator[list[tuple[str, Page, Page]]]:
    """Each page of the build in metric and in the other units."""
    metric, other = _context(browser, None), _context(browser, ALL)
    yield [(p, _at(metric, root, f"dipper/{p}"), _at(other, root, f"dipper/{p}")) for p in PAGES]
    metric.close()
    other.close()


def _read(text: str) -> tuple[Fraction, Fraction]:
    """A number that stands last in a text, and what its last digit is worth."""
    found = re.findall(NUMBER, text)[-1]
    return Fraction(found.replace("\u2212", "-")), Fraction(1, 10 ** len(found.partition(".")[2]))


def _is_right(metric: str, other: str, unit: str, *, spread: bool = False) -> None:
    """The nearest to the exact one that its digits can say; digits that say about as much."""
    size, _ = SIZE[unit]
    value, step = _read(metric)
    shown, shown_step = _read(other)
    exact = value / size + (32 if unit == "°C" and not spread else 0)
    assert abs(shown - exact) <= shown_step / 2, (metric, other, unit)
    assert shown_step * size / step < COARSEST, (metric, other, unit)
    assert spread or shown_step * size / step > FINEST - Fraction(1, 1000), (metric, other, unit)
    assert not spread or not value or shown, "a spread that is there is not 0"


def test_each_figure_in_both_systems(both: list[tuple[str, Page, Page]]) -> None:
    seen = dict.fromkeys(SIZE, 0)
    spreads = 0
    for address, metric, other in both:
        before, after = metric.evaluate(FIGURES), other.evaluate(FIGURES)
        assert len(before) == len(after)
        for (number, unit, caption, leads), (other_number, other_unit, _, _) in zip(
            before, after, strict=True
        ):
            found = FIGURE.match(unit)
            if not found or not re.search(rf"{NUMBER}$", number):
                continue
            name = SIZE[found[1]][1]
            if caption == "Screws by place":
                assert (number, unit) == (other_number, other_unit)
                continue
            seen[found[1]] += 1
            if leads.startswith("#site/limits/"):
                assert other_number == number and unit in other_unit, "the law's own unit stays"
                beside = re.search(rf"\(({NUMBER})\u00a0{name}\)", other_unit)
                exact = _read(number)[0] / SIZE[found[1]][0]
                assert beside and exact - _read(beside[1])[1] < _read(beside[1])[0] <= exact
                continue
            assert other_unit.startswith(f"\u00a0{name}"), (address, number, unit, other_unit)
            _is_right(number, other_number, found[1])
            if found[2]:
                spreads += 1
                _is_right(found[2], other_unit, found[1], spread=True)
    assert seen["g"] > 80 and seen["mm"] > 5 and seen["m"] > 1 and seen["°C"], seen
    assert spreads > 10


def test_columns_whose_heading_has_the_unit(both: list[tuple[str, Page, Page]]) -> None:
    """The table of weights: each, together, spread."""
    cells = """[...document.querySelectorAll("#weight table")].filter(t => t.tHead && t.tHead.textContent.includes("Together"))
    .flatMap(t => [...t.tBodies[0].rows].filter(r => r.cells.length > 1)
    .flatMap(r => [2, 3, 4].filter(i => r.cells[i]).map(i => [r.cells[i].textContent, r.cells[i].dataset.l || ""])))"""
    metric, other = next((m, o) for p, m, o in both if p == "parts/")
    before, after = metric.evaluate(cells), other.evaluate(cells)
    told = 0
    for (text, label), (other_text, other_label) in zip(before, after, strict=True):
        assert label.removesuffix("g") == other_label.removesuffix("oz") and label[-1:] in ("g", "")
        if re.search(NUMBER, text):
            told += 1
            _is_right(text, other_text, "g", spread=text.startswith("±"))
    assert told > 60


def test_what_is_cut_and_what_the_iron_is_set_to(
    both: list[tuple[str, Page, Page]], demo: Checked
) -> None:
    """Lengths from the build itself; temperatures of irons from each text of the work."""
    wiring = next(o for p, _, o in both if p == "wiring/")
    cut = wiring.inner_text("#cuts")
    wires = [w.wire for w in demo.sheets["dipper"].build.wires if w.wire.length is not None]
    assert len(wires) > 8
    for wire in wires:
        assert wire.length is not None
        inches = Fraction(round(wire.length.value * 1000)) / Fraction("25.4")
        assert re.search(rf"{float(inches):.2f}[ \u00a0]in", cut), wire
    assert not re.search(r"\d[ \u00a0]mm", cut)
    work = next((m, o) for p, m, o in both if p == "work/")
    irons = re.compile(r"(?:tip, |fine |medium |broad )(?:up to )?(\d+)[ \u00a0]°([CF])")
    before, after = (irons.findall(" ".join(tab.evaluate(TEXTS))) for tab in work)
    assert len(before) == len(after) > 20
    assert {unit for _, unit in after} == {"F"}
    for (celsius, _), (fahrenheit, _) in zip(before, after, strict=True):
        assert abs(Fraction(fahrenheit) - Fraction(celsius) * Fraction(9, 5) - 32) <= Fraction(1, 2)


def test_names_sentences_and_boxes_stay(both: list[tuple[str, Page, Page]]) -> None:
    """Names of parts, sizes of the trade, gaps between pads, cautions, what is asked for."""
    for address, metric, other in both:
        for chosen in (
            "h1, h2, h3",
            "label > i",
            ".notice p",
            "svg text",
            "code",
            "[id^=part-] th",
            "p.note",
        ):
            within = f"main :is({chosen})"
            texts = f"[...document.querySelectorAll('{within}')].map(e => e.textContent)"
            assert metric.evaluate(texts) == other.evaluate(texts), (address, chosen)
    work = next(o for p, _, o in both if p == "work/").inner_text("main")
    assert re.search(r"do not bridge to\s+\S+ at [\d.]+[ \u00a0]mm", work)
    assert "AWG" in work


def test_paper_says_the_same(
    browser: Browser, both: list[tuple[str, Page, Page]], root: Path
) -> None:
    """Printed by the setting, and the same page by the script, to the letter."""
    shown = next(o for p, _, o in both if p == "bench-sheet/")
    context = _context(browser, None)
    printed = _at(context, root, "printed")
    words = [[t for t in tab.evaluate(TEXTS) if t.strip()] for tab in (shown, printed)]
    assert words[0] == words[1]
    assert sum("\u00b0F" in t for t in words[0]) > 5
    context.close()


@pytest.mark.parametrize("width", [390, 1280])
def test_nothing_moves_and_metric_is_never_seen(browser: Browser, root: Path, width: int) -> None:
    context = _context(browser, ALL, width)
    for address in ("dipper/", "dipper/parts/", "dipper/work/"):
        tab = context.new_page()
        tab.add_init_script(WATCH)
        tab.goto((root / address / "index.html").as_uri())
        tab.wait_for_timeout(400)
        assert tab.evaluate("moved") < 1e-4, address
        seen = tab.evaluate("seen")
        assert re.search(r"\d\u00a0(oz|in|°F)", seen), (
            "what is laid out first is in the reader's units"
        )
        assert (
            seen == tab.evaluate("document.querySelector('main').textContent")
            or address != "dipper/"
        )
    context.close()


def _ask(tab: Page) -> None:
    tab.locator(".top a", has_text="Units").click()


def test_chosen_by_keyboard_and_kept(browser: Browser, root: Path) -> None:
    context = _context(browser, None, 390)
    tab = _at(context, root, "dipper/")
    assert "228.7" in tab.inner_text(".figures")
    link = tab.locator(".top a", has_text="Units")
    link.focus()
    tab.keyboard.press("Enter")
    box = tab.get_by_role("dialog", name="Units")
    assert box.is_visible()
    assert box.get_by_role("group").count() == 3
    assert tab.evaluate("document.activeElement.type") == "radio"
    tab.keyboard.press("ArrowRight")
    assert box.get_by_role("radio", name="ounces").is_checked()
    tab.keyboard.press("Escape")
    assert not box.count()
    assert tab.evaluate("document.activeElement.textContent") == "Units"
    assert "8.07" in tab.inner_text(".figures") and "228.7" not in tab.inner_text(".figures")
    later = _at(context, root, "dipper/parts/")
    assert "8.07" in later.inner_text("#weight")
    _ask(later)
    later.get_by_role("radio", name="grams").check()
    later.get_by_role("button", name="Done").click()
    assert "228.7" in later.inner_text("#weight") and "8.07" not in later.inner_text("#weight")
    tab.wait_for_timeout(200)
    assert "228.7" in tab.inner_text(".figures"), "a page that is open follows"
    context.close()


def test_back_and_forth_leaves_no_trace(browser: Browser, root: Path) -> None:
    context = _context(browser, None)
    tab = _at(context, root, "dipper/parts/")
    before = tab.inner_html("main")
    _ask(tab)
    for name in ("ounces", "inches and feet", "°F", "grams", "millimetres and metres", "°C"):
        tab.get_by_role("radio", name=name).check()
    tab.keyboard.press("Escape")
    assert tab.inner_html("main") == before
    context.close()


def test_without_storage_it_holds_for_the_page(browser: Browser, root: Path) -> None:
    context = browser.new_context()
    context.add_init_script(NO_STORAGE)
    tab = _at(context, root, "dipper/")
    _ask(tab)
    tab.get_by_role("radio", name="ounces").check()
    tab.keyboard.press("Escape")
    assert "8.07" in tab.inner_text(".figures")
    context.close()


def test_without_a_script_metric_stays_and_the_page_says_why(browser: Browser, root: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    tab = context.new_page()
    tab.goto((root / "dipper/index.html").as_uri())
    assert "228.7" in tab.inner_text(".figures")
    _ask(tab)
    assert tab.url.endswith("units/index.html")
    assert "without them pages are metric" in tab.inner_text("main")
    context.close()


def test_the_site_may_say_what_who_chose_nothing_reads(browser: Browser, root: Path) -> None:
    for chosen, shown in ((None, "2.56"), ("", "65"), ("oz", "65")):
        context = _context(browser, chosen)
        first = (
            _at(context, root, "inches").locator("#examples tbody tr").nth(1).locator("td").first
        )
        assert first.inner_text().startswith(shown)
        context.close()


def test_what_a_script_lays_out_later_is_converted_too(browser: Browser, root: Path) -> None:
    context = _context(browser, ALL)
    tab = _at(context, root, "units")
    made = tab.evaluate("""async () => { const p = document.createElement("p"); p.innerHTML = "x <a>10.0<i>\u00a0g</i></a>";
        document.querySelector("main").append(p); await new Promise(r => setTimeout(r)); return p.textContent; }""")
    assert made == "x 0.35\u00a0oz"
    context.close()


def test_a_tick_survives_a_change_of_units(browser: Browser, root: Path) -> None:
    """A tick goes by the words of its line, which are other words in inches."""
    context = _context(browser, None)
    tab = _at(context, root, "dipper/wiring/")
    box = tab.locator("#cuts input[type=checkbox]").first
    box.check()
    _ask(tab)
    tab.get_by_role("radio", name="inches and feet").check()
    again = _at(context, root, "dipper/wiring/")
    assert re.search(r"\d[ \u00a0]in", again.inner_text("#cuts"))
    assert again.locator("#cuts input[type=checkbox]").first.is_checked()
    context.close()
