"""No layout shift while a page comes and scripts run, anchors lead to what they name, and print has
everything.
"""

import re
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest
from playwright.sync_api import Browser, Page, Route

from builder.pages.derivations.numbers_page import numbers_page
from builder.pages.page_map import WIRING
from builder.pages.site.build_page import build_page, topic_page, work_page
from builder.pages.site.reference_page import rules_page
from builder.pages.site.site_pages import site_pages
from builder.pipeline.check import Checked
from builder.render.assets import asset_files
from builder.render.html.page import Renderer, template_texts

# Layout Instability API (WICG): what moved between two frames, summed up.
WATCH = """window.moved = 0; new PerformanceObserver(list => { for (const e of list.getEntries()) window.moved += e.value; })
.observe({type: "layout-shift", buffered: true});"""
# A space between two elements that a frame shows before the second is read; nobody sees it.
A_HAIR = 1e-4
# What is laid out, and which faces are there, when the page is shown.
AT_SHOWN = """window.high = 0; new MutationObserver(() => {
  const root = document.documentElement;
  if (root.className === "fonts-awaited") { window.high = document.body ? document.body.offsetHeight : 0; }
  if (root.className !== "fonts-had" || window.shown) { return; }
  window.shown = {before: window.high, faces: [...document.fonts].filter(f => f.status === "loaded").length};
}).observe(document, {attributes: true, subtree: true, attributeFilter: ["class"]});"""
SMALL_FACES = 5  # regular, bold, italic, mono and Greek
FACES = re.compile(r"@font-face \{[^}]*\}")
# What was on a page and moved leads away from it, by design.
PLACES = """() => [...document.querySelectorAll("main section[id], main tr[id], main li[id]")]
.filter(e => !e.closest(".moved")).map(e => e.id)"""
FROM_TOP = """id => [document.getElementById(id).getBoundingClientRect().top,
scrollY + innerHeight >= document.documentElement.scrollHeight - 2]"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory, demo: Checked) -> Path:
    """Pages that are long, and the short sheet, with their assets."""
    root = tmp_path_factory.mktemp("site")
    site, made = site_pages(demo.workspace.site), demo.sheets["redshank"]
    numbers = numbers_page(made, made.figures)
    for address, content in asset_files(None).items():
        (root / address).parent.mkdir(parents=True, exist_ok=True)
        (root / address).write_bytes(content)
    for name, page in (
        ("sheet", build_page(made)),
        ("wiring", topic_page(made, WIRING)),
        ("work", work_page(made)),
        ("numbers", numbers),
        ("rules", rules_page()),
    ):
        target = root / page.address
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(Renderer(template_texts(None)).page(page, site))
        (root / f"{name}.address").write_text(target.as_uri())
    return root


def _tab(browser: Browser, width: int) -> Page:
    page = browser.new_context(viewport={"width": width, "height": 844}).new_page()
    page.add_init_script(WATCH)
    return page


def _without_faces(route: Route) -> None:
    """Gives a style sheet without fonts to fetch: on a busy machine they come a frame late."""
    style = Path(unquote(urlsplit(route.request.url).path)).read_text(encoding="utf-8")
    route.fulfill(body=FACES.sub("", style), content_type="text/css")


def _moved(browser: Browser, width: int, address: str) -> float:
    """What moved while the page came, its fonts aside."""
    page = _tab(browser, width)
    page.route("**/*.css", _without_faces)
    page.goto(address)
    page.wait_for_timeout(300)
    moved = page.evaluate("moved")
    page.context.close()
    assert isinstance(moved, int | float)
    return moved


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("name", ["sheet", "wiring", "work", "numbers", "rules"])
def test_nothing_moves_and_each_anchor_is_where_it_leads(
    browser: Browser, folder: Path, name: str, width: int
) -> None:
    address = (folder / f"{name}.address").read_text()
    assert _moved(browser, width, address) < A_HAIR
    page = _tab(browser, width)
    page.goto(address)
    page.evaluate("document.fonts.ready")
    places = page.evaluate(PLACES)
    assert len(places) > (10 if name == "sheet" else 20)
    for place in places[:: max(1, len(places) // 6)]:
        page.evaluate("id => { location.hash = id; }", place)
        page.wait_for_timeout(150)
        top, at_end = page.evaluate(FROM_TOP, place)
        assert -2 <= top <= 40 or (at_end and 0 <= top < 844), (place, top)
    page.context.close()


def test_the_first_line_waits_for_the_fonts(browser: Browser, folder: Path) -> None:
    """On a machine ten times as slow, too, nothing is laid out before the fonts are there."""
    page = browser.new_context(viewport={"width": 390, "height": 844}).new_page()
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": 10})
    page.add_init_script(AT_SHOWN)
    page.goto((folder / "work.address").read_text())
    for _ in range(100):
        if page.evaluate("Boolean(window.shown)"):
            break
        page.wait_for_timeout(100)
    assert page.evaluate("shown.before") == 0
    assert page.evaluate("shown.faces") >= SMALL_FACES
    page.context.close()


@pytest.mark.parametrize("name", ["sheet", "work", "numbers", "rules"])
def test_the_page_is_as_high_before_it_was_read_as_after(
    browser: Browser, folder: Path, name: str
) -> None:
    """No height is guessed: the scroll bar says from the start how long the page is."""
    page = _tab(browser, 390)
    page.goto((folder / f"{name}.address").read_text())
    page.evaluate("document.fonts.ready")
    high = "document.documentElement.scrollHeight"
    before = page.evaluate(high)
    page.evaluate(f"scrollTo(0, {high})")
    page.wait_for_timeout(300)
    assert page.evaluate(high) == before
    guessed = page.evaluate("""() => [...document.querySelectorAll("main *")]
        .filter(e => getComputedStyle(e).contentVisibility !== "visible").length""")
    assert guessed == 0
    page.emulate_media(media="print")
    assert page.evaluate("getComputedStyle(document.body).animationName") == "none"
    page.context.close()
