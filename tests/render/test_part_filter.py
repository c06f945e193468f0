"""The list of parts in a browser: of one kind, a figure from and to; what is typed goes with the kind."""

import pytest
from playwright.sync_api import Browser, Page

from builder.model.read.workspace import Workspace
from builder.pages.site.part_list import listed_part, part_list_page
from builder.pages.site.site_pages import site_pages
from builder.render.assets import asset_files
from builder.render.html.page import Renderer, template_texts
from tests.compute.small_workspace import workspace

SHELF = """\
slow: {kind: motor, name: Slow, mass: 9 g, kv: 1900 rpm/V}
fast: {kind: motor, name: Fast, mass: 8 g, kv: 11500 rpm/V}
mute: {kind: motor, name: Mute, mass: 8 g}
inch: {kind: propeller, name: Inch, mass: 1 g, diameter: 3 in}
four: {kind: pack, name: Four, mass: 90 g, cells: 4S, capacity: 850 mAh}
six: {kind: pack, name: Six, mass: 500 g, cells: 6S, capacity: 4200 mAh}
many: {kind: pack, name: Many, mass: 1000 g, cells: 14S, capacity: 900 mAh}
metric: {kind: propeller, name: Metric, mass: 1 g, diameter: 127 mm}
"""


@pytest.fixture(scope="module")
def listed(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Page:
    made: Workspace = workspace(SHELF, {"a": "title: A\nparts: {m: slow}\n"})
    lines = [listed_part(name, entry.part) for name, entry in made.shelf.items()]
    users = {line.shelf: () for line in lines}
    page = part_list_page(lines, users, {}, {})
    root = tmp_path_factory.mktemp("list")
    for name, content in asset_files(None).items():
        (root / name).parent.mkdir(parents=True, exist_ok=True)
        (root / name).write_bytes(content)
    path = root / page.address
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(Renderer(template_texts(None)).page(page, site_pages(made.site)))
    shown = browser.new_page()
    shown.goto(path.as_uri())
    return shown


def _shown(page: Page) -> set[str]:
    rows = page.locator("tbody tr").all()
    return {r.get_attribute("id") or "" for r in rows if r.is_visible()}


def test_motors_are_filtered_by_their_turns_a_volt(listed: Page) -> None:
    assert len(_shown(listed)) == 8
    assert not listed.locator(".range input").count()
    listed.get_by_label("Kind:").select_option("motor")
    assert "kv in rpm/V" in (listed.locator(".range").text_content() or "")
    assert _shown(listed) == {"part-slow", "part-fast", "part-mute"}
    listed.get_by_label("from").fill("2000")
    assert _shown(listed) == {"part-fast"}, "one that does not say it is not over it"
    listed.get_by_label("to", exact=True).fill("3000")
    assert _shown(listed) == set()
    assert "No row" in listed.get_by_role("status").text_content()  # type: ignore[operator]


def test_one_unit_for_all_of_a_kind_and_all_come_back(listed: Page) -> None:
    """127 mm are 5 inches (the inch is 25.4 mm: ISO 31-1, NIST SP 811)."""
    listed.get_by_label("Kind:").select_option("propeller")
    assert "diameter in in" in (listed.locator(".range").text_content() or "")
    listed.get_by_label("from").fill("4.9")
    assert _shown(listed) == {"part-metric"}
    listed.get_by_label("to", exact=True).fill("5.0")
    assert _shown(listed) == {"part-metric"}
    listed.get_by_label("Kind:").select_option("")
    assert len(_shown(listed)) == 8
    assert not listed.locator(".range").is_visible()


def test_cells_are_found_as_people_say_them(listed: Page) -> None:
    field = listed.get_by_label("Filter:")
    for words in ("4 cells", "4-cell", "4S", "4s 850"):
        field.fill(words)
        assert _shown(listed) == {"part-four"}, words
    field.fill("4200")
    assert _shown(listed) == {"part-six"}
    field.fill("")
    assert len(_shown(listed)) == 8


def test_batteries_are_sorted_by_weight(listed: Page) -> None:
    listed.get_by_label("Kind:").select_option("battery")
    listed.get_by_role("button", name="Each").click()
    rows = [r.get_attribute("id") for r in listed.locator("tbody tr").all() if r.is_visible()]
    assert rows == ["part-four", "part-six", "part-many"]
    listed.get_by_label("Kind:").select_option("")
