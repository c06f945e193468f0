"""What people want to know in ten seconds: from the front page, with at most two touches on a phone.

Answers come from `sheet.json` and the shelf, not from the pages. How many touches are few: common
practice, no source.
"""

import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page

from builder.pipeline.check import Checked
from builder.pipeline.published import Published
from builder.rules.choose.search import choose_swaps

TITLES = {
    "pipit": "Pipit",
    "redshank": "Redshank 5",
    "dipper": "Dipper 3",
    "curlew": "Curlew 7",
    "turnstone": "Turnstone 6",
}
EIGHT_MINUTES = 8 * 60.0  # s


class Reader:
    """A person with a phone, who counts touches."""

    def __init__(self, page: Page, site: Path) -> None:
        self.page, self.touches = page, 0
        page.goto((site / "index.html").as_uri())

    def touch(self, what: Locator) -> None:
        """One touch."""
        self.touches += 1
        assert self.touches <= 2
        what.first.click()
        self.page.wait_for_load_state()

    def link(self, words: str, within: str = "body") -> Locator:
        """A link that says just this."""
        return self.page.locator(within).get_by_role("link", name=words, exact=True)


@pytest.fixture
def reader(browser: Browser, published_demo: tuple[Path, Published]) -> Iterator[Reader]:
    context = browser.new_context(viewport={"width": 390, "height": 844})
    yield Reader(context.new_page(), published_demo[0] / "site")
    context.close()


@pytest.fixture
def site(published_demo: tuple[Path, Published]) -> Path:
    return published_demo[0] / "site"


@pytest.mark.parametrize("name", TITLES)
def test_what_to_buy_and_where(reader: Reader, site: Path, name: str) -> None:
    """Each line to order has its shop as a link."""
    reader.touch(reader.link(TITLES[name], "main"))
    reader.touch(reader.link("Buy", "main"))
    rows = reader.page.locator(".buy tr[data-paid]")
    rows.first.wait_for()
    shops = rows.evaluate_all("all => all.map(r => r.querySelectorAll('a[href^=http]').length)")
    bought = [
        p for p in json.loads((site / name / "sheet.json").read_text())["parts"] if p["count"]
    ]
    assert len(shops) >= len(bought) / 2
    assert sum(1 for links in shops if links) >= 0.8 * len(shops)


def test_what_instead(reader: Reader) -> None:
    """What fits in place of a part that is sold out, and what it changes."""
    reader.touch(reader.link("Dipper 3", "main"))
    reader.touch(reader.link("Buy", "main"))
    told = [t for t in reader.page.locator(".buy td").all_inner_texts() if ": fits," in t]
    assert told
    assert all(re.search(r"[+\u2212]\d[\d.]*\s(g|EUR|min)", t) for t in told)


def test_which_of_two(reader: Reader, site: Path) -> None:
    """The first lines say which is lighter and which is cheaper, and by how much."""
    reader.touch(reader.link("Compare", "header"))
    reader.touch(reader.link("Dipper 3 and Pipit", "main"))
    headline = reader.page.locator("main .summary")
    box = headline.bounding_box()
    assert box is not None and box["y"] + box["height"] < 844
    words = headline.inner_text().replace("\u00a0", " ")
    money = [
        json.loads((site / b / "sheet.json").read_text())["money"]["this_build"]
        for b in ("dipper", "pipit")
    ]
    assert f"{(money[0] - money[1]) / 100:.2f} EUR less" in words
    assert re.search(r"Pipit is [\d.]+\sg lighter", words)


def _flown(site: Path) -> list[tuple[float, float, str]]:
    """Flying weight in kg, time in the air in s, title, of each build with each battery."""
    out = []
    for sheet in sorted(site.glob("*/sheet.json")):
        said = json.loads(sheet.read_text())
        head = said.get("headline", {})
        for key, weight in head.items():
            kind, _, pack = key.partition("/")
            time = head.get(f"endurance/{pack}")
            if kind == "all-up" and time:
                out.append((weight["value"], time["value"], said["title"]))
    return out


def test_the_lightest_that_flies_eight_minutes(reader: Reader, site: Path) -> None:
    """All builds in one table; a touch on a heading sorts it."""
    reader.touch(reader.link("Compare", "header"))
    table = reader.page.locator(".sortable table").first
    reader.touch(table.get_by_role("button", name="Flying weight"))
    rows = [r.split("\t") for r in table.locator("tbody tr").all_inner_texts()]
    shown = [" ".join(r).replace("\u00a0", " ") for r in rows]
    long = [r for r in shown if float(re.findall(r"([\d.]+) min", r)[0]) >= EIGHT_MINUTES / 60]
    lightest = min(x for x in _flown(site) if x[1] >= EIGHT_MINUTES)
    assert long[0].startswith(lightest[2])
    assert f"{1000 * lightest[0]:.1f} g" in long[0]


def test_the_lightest_that_one_build_can_be_and_fly_eight_minutes(
    reader: Reader, demo: Checked
) -> None:
    """By swaps of the whole shelf: the first numbered row with enough minutes."""
    sheet = demo.sheets["dipper"]
    shelf = dict(demo.workspace.shelf)
    found = choose_swaps(sheet.build, shelf, sheet.results, sheet.verdict)
    known = [p for c in found.right if (p := c.figures.of_known) is not None]
    lightest = min(p[0] for p in known if -p[2] >= EIGHT_MINUTES)
    reader.touch(reader.link("Dipper 3", "main"))
    reader.touch(reader.link("swap parts", "main"))
    rows = reader.page.locator("tr[id^='choice-']").all_inner_texts()
    shown = [" ".join(r.split()) for r in rows if not r.startswith("now")]
    long = [r for r in shown if float(re.findall(r"([\d.]+) min", r)[-1]) >= EIGHT_MINUTES / 60]
    assert f"{1000 * lightest:.1f} g" in long[0]
