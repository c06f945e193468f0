"""The list to order: every part at one shop, whole bags, and sums that agree with the budget's."""

import csv
import io
import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from builder.compute.figures.figure import Unknown
from builder.pages.blocks import Section, Span, Table
from builder.pages.money.buy_section import buy
from builder.pages.page_map import BUY
from builder.pages.page_text import words
from builder.pages.site.build_page import topic_page
from builder.pages.site.site_pages import site_pages
from builder.pipeline.check import Checked, judged_alone
from builder.render.assets import asset_files
from builder.render.data.buy_csv import buy_csv
from builder.render.html.page import Renderer, template_texts
from builder.rounding import rounded
from tests.compute.small_workspace import one_build

DEMO = ("dipper", "dipper-light", "redshank", "curlew", "pipit", "turnstone")


@pytest.mark.parametrize("name", DEMO)
def test_the_orders_come_to_what_is_paid_in_all(demo: Checked, name: str) -> None:
    """The same money, added up another way: by shop, in whole coins."""
    sheet = demo.sheets[name]
    orders = sheet.results.orders
    coins = [round(100 * order.total.value) for order in orders.shops]
    assert sum(coins) == round(100 * sheet.results.budget.figures["to-pay"].value)
    listed = [p.line.key for order in orders.shops for p in order.purchases]
    packs = [f"pack-{key}" for key in sheet.build.packs]
    assert sorted(listed) == sorted([*sheet.build.parts, *packs])


@pytest.mark.parametrize("name", DEMO)
def test_a_bag_holds_what_is_needed_and_no_bag_too_many(demo: Checked, name: str) -> None:
    """Left over is less than a bag, and never below nothing."""
    rows = csv.DictReader(io.StringIO(buy_csv(demo.sheets[name]).decode("utf-8-sig")))
    seen = 0
    for row in rows:
        held = int(row["bags"]) * int(row["pieces in a bag"])
        need = int(row["needed"]) + int(row["spares"])
        assert held - need == int(row["left over"])
        assert 0 <= held - need < int(row["pieces in a bag"])
        seen += 1
    assert seen > 20


def _tables(section: Section) -> list[Table]:
    return [block for block in section.blocks if isinstance(block, Table)]


def test_a_stand_in_is_named_only_where_the_rules_let_it_fit(demo: Checked) -> None:
    """One that breaks something is not offered when its part is sold out."""
    for sheet in demo.sheets.values():
        broken = {t.label for t in sheet.alternatives.tried if t.answer == "no"}
        fitting = {t.label for t in sheet.alternatives.tried if t.answer == "yes"}
        said = {
            piece.text
            for table in _tables(buy(sheet))[1:]
            for row in table.rows
            for piece in (row.cells[6].pieces if len(row.cells) > 6 else ())
            if isinstance(piece, Span)
        }
        assert not broken & said, "one that does not fit is a word, and leads nowhere"
        assert fitting <= said


def test_a_stand_in_says_what_it_changes(demo: Checked) -> None:
    """Grams against those of the two parts on the shelf; a battery against the whole flying weights."""
    sheet = demo.sheets["dipper"]
    rows = {r.anchor: r for t in _tables(buy(sheet))[1:] for r in t.rows}
    seen = 0
    for one in (t for t in sheet.alternatives.tried if t.answer != "no"):
        said = words(rows[f"buy-part-{one.key}"].cells[6].pieces)
        count = sheet.build.parts[one.key].count
        old, new = sheet.build.parts[one.key].part.mass, sheet.build.shelf[one.shelf].part.mass
        assert old is not None and new is not None
        assert old.value is not None and new.value is not None
        grams = 1000 * count * (new.value - old.value)
        assert f"{one.label}: " in said and f"{rounded(grams, 1).lstrip('-')} g" in said
        seen += 1
    assert sheet.choices is not None
    every = (*sheet.choices.right, *sheet.choices.unsure)
    for name in sheet.build.packs:
        said = words(rows[f"buy-part-pack-{name}"].cells[6].pieces)
        for chosen in every:
            other = chosen.selection.other_pack
            if other is None or chosen.selection.parts:
                continue
            grams = 1000 * (chosen.figures.mass.value - sheet.results.mass.all_up[name].value)
            answer = "fits" if chosen.is_sure else "not known whether it fits"
            label = sheet.build.shelf[other.shelf].part.name
            assert f"{label}: {answer}, +{grams:.1f} g" in said
            seen += 1
    assert seen, "the demo has at least one"


def test_a_part_without_a_shop_or_a_price_is_listed_and_said() -> None:
    """Nothing that has to be bought is left out for want of a price."""
    build = one_build(
        "f: {kind: frame, name: Bare frame}\ng: {kind: frame, name: Priced, price: 2.00 EUR}",
        "title: T\nparts: {f: {use: f}, g: {use: g, count: 2}}",
    )
    made = judged_alone(build, draft=True)
    tables = _tables(buy(made))
    assert [table.caption for table in tables] == ["What it comes to", "No shop given"]
    texts = " ".join(str(row) for row in tables[1].rows)
    assert "Bare frame" in texts and "no price" in texts


def test_what_is_left_to_order_follows_the_boxes(
    browser: Browser, demo: Checked, tmp_path: Path
) -> None:
    """Two boxes ticked: the line falls by their amounts, and stays so after a reload."""
    site, sheet = site_pages(demo.workspace.site), demo.sheets["dipper"]
    for address, content in asset_files(None).items():
        (tmp_path / address).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / address).write_bytes(content)
    page_made = topic_page(sheet, BUY)
    target = tmp_path / page_made.address
    target.parent.mkdir(parents=True)
    target.write_bytes(Renderer(template_texts(None)).page(page_made, site))
    page = browser.new_context(viewport={"width": 390, "height": 844}).new_page()
    page.goto(target.as_uri())
    left = "document.getElementById('buy-left').lastElementChild.textContent"

    def coins() -> int:
        found = re.search(r"\d+\.\d\d", page.evaluate(left))
        assert found
        return round(100 * float(found[0]))

    before = coins()
    paid = 0
    for key in ("motor", "frame"):
        page.check(f"[data-tick='ordered-{key}']")
        row = page.evaluate(f"document.getElementById('buy-part-{key}').dataset.paid")
        paid += int(row)
    assert paid > 0
    assert before - coins() == paid
    page.reload()
    assert before - coins() == paid
    page.context.close()


def test_postage_is_found_for_a_shop_that_only_its_link_names() -> None:
    """A host is the same in any letters and at any port: its postage is in its order, once."""
    build = one_build(
        "f: {kind: frame, name: F, price: {each: 2.00 EUR, postage: 4.00 EUR,"
        " link: 'https://Shop.example:8443/f'}}\n"
        "g: {kind: frame, name: G, price: {each: 3.00 EUR, postage: 5.00 EUR,"
        " link: 'https://shop.example/g'}}",
        "title: T\nparts: {f: {use: f}, g: {use: g}}",
    )
    results = judged_alone(build, draft=True).results
    (order,) = results.orders.shops
    assert order.shop == "shop.example"
    assert round(100 * order.total.value) == 1000
    assert round(100 * results.budget.figures["to-pay"].value) == 1000


def test_what_another_build_leaves_over_is_said_once_its_parts_have_come(
    browser: Browser, demo: Checked, tmp_path: Path
) -> None:
    """A bag that has come for one build; its rest is said on the page of another, on this device alone."""
    site = site_pages(demo.workspace.site)
    for address, content in asset_files(None).items():
        (tmp_path / address).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / address).write_bytes(content)
    targets, over = {}, {}
    for name in ("dipper", "pipit"):
        sheet = demo.sheets[name]
        made = topic_page(sheet, BUY)
        targets[name] = tmp_path / made.address
        targets[name].parent.mkdir(parents=True)
        targets[name].write_bytes(Renderer(template_texts(None)).page(made, site))
        lines = [p for order in sheet.results.orders.shops for p in order.purchases]
        parts = {p.line.key: p.left_over for p in lines if p.line.key in sheet.build.parts}
        over[name] = {sheet.build.parts[k].shelf: (k, n) for k, n in parts.items() if n > 0}
    shelf = next(s for s in over["dipper"] if s in over["pipit"])
    key, rest = over["dipper"][shelf]
    page = browser.new_context().new_page()
    page.goto(targets["pipit"].as_uri())
    assert page.locator(".lent").count() == 0
    page.goto(targets["dipper"].as_uri())
    page.check(f"[data-tick='arrived-{key}']")
    page.goto(targets["pipit"].as_uri())
    said = page.locator(".lent").all_inner_texts()
    assert said == [f"{rest} left over from dipper, by boxes ticked on this device"]
    page.goto(targets["dipper"].as_uri())
    page.uncheck(f"[data-tick='arrived-{key}']")
    page.goto(targets["pipit"].as_uri())
    assert page.locator(".lent").count() == 0


def _sums(section: Section) -> dict[str, str]:
    return {words(r.cells[0].pieces): words(r.cells[1].pieces) for r in _tables(section)[0].rows}


def test_who_owns_the_tools_is_said_and_what_they_cost_who_owns_none(demo: Checked) -> None:
    """Prices of tools that are owned, added to what the orders come to, in whole coins."""
    seen = 0
    for sheet in demo.sheets.values():
        found, section = sheet.results.budget, buy(sheet)
        owned = [x for x in found.once if x.owned]
        sums = _sums(section)
        row = next(r for r in _tables(section)[0].rows if "Tools" in words(r.cells[0].pieces))
        assert ("owns" in row.cells[0].note) == bool(owned)
        assert ("All orders, if you own no tool" in sums) == bool(owned)
        if owned:
            coins = sum(x.till.minor for x in owned if x.till is not None)
            less, more = (
                round(100 * float(sums[k].removesuffix(" EUR").split()[-1]))
                for k in ("All orders", "All orders, if you own no tool")
            )
            assert more - less == coins > 0
            seen += 1
    assert seen


def test_ones_own_printer_is_no_shop() -> None:
    build = one_build(
        "f: {kind: frame, name: F, price: {each: 2.00 EUR, shop: S}}\n"
        "g: {kind: printed-part, name: G, price: {each: 0.30 EUR, shop: own printer}}\n"
        "h: {kind: printed-part, name: H, price: {each: 9.00 EUR, shop: P,"
        " link: 'https://shop.example/h'}}",
        "title: T\nparts: {f: {use: f}, g: {use: g}, h: {use: h}}",
    )
    made = judged_alone(build, draft=True)
    bought = {o.shop: o.is_bought for o in made.results.orders.shops}
    assert bought == {"S": True, "own printer": False, "P": True}
    assert "Order at 2 shops" in str(buy(made).blocks[0])


def test_each_line_says_what_if_it_is_sold_out_and_leads_to_its_part(demo: Checked) -> None:
    for sheet in demo.sheets.values():
        rows = [r for t in _tables(buy(sheet))[1:] for r in t.rows if r.anchor]
        assert rows
        for row in rows:
            assert words(row.cells[6].pieces).strip(), row.anchor
            first = row.cells[0].pieces[0]
            assert isinstance(first, Span) and first.link.startswith("parts/")
        for key in {t.key for t in sheet.alternatives.tried}:
            tried = [t for t in sheet.alternatives.tried if t.key == key]
            said = words(next(r for r in rows if r.anchor == f"buy-part-{key}").cells[6].pieces)
            if all(t.answer == "no" for t in tried):
                assert all(t.label in said for t in tried)


def test_a_battery_that_is_rated_for_less_is_marked_where_it_is_bought(demo: Checked) -> None:
    marked = set()
    for name, sheet in demo.sheets.items():
        for row in (r for t in _tables(buy(sheet))[1:] for r in t.rows):
            if "Warning" in words(row.cells[0].pieces):
                marked.add((name, row.anchor.removeprefix("buy-part-pack-")))
    over = {
        (name, x.pack)
        for name, sheet in demo.sheets.items()
        for x in sheet.results.flight.limits
        if not isinstance(x.limit, Unknown)
        and not isinstance(x.current, Unknown)
        and x.current.value > x.limit.value
    }
    assert ("redshank", "old") in over
    assert marked == over
