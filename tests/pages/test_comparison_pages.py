"""What a comparison says: its first line, its bands, what is alike on request, which pairs are
made, the terminal.
"""

import json
import re
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner

from builder.cli.main import cli
from builder.compute.compare.difference import difference_of
from builder.compute.figures.figure import Figure
from builder.compute.flight.flight import BAND
from builder.pages.blocks import (
    Bullets,
    Cell,
    Fold,
    Illustration,
    Page,
    Section,
    Span,
    Table,
)
from builder.pages.compare.bands import bands
from builder.pages.compare.pairs import ALL_PAIRS_UP_TO, pairs_to_compare
from builder.pages.drawing import Rectangle
from builder.pages.page_text import words
from builder.pages.site.all_builds import front_page
from builder.pages.site.site_pages import site_pages
from builder.pages.summaries.summarise import summarise
from builder.pages.tables.verdict_line import verdict_line
from builder.pipeline.check import Checked
from builder.rounding import rounded
from tests.pages.pair_page import pair_page

pytestmark = pytest.mark.slow  # takes long


@pytest.fixture(scope="module")
def page(demo: Checked) -> Page:
    return pair_page(demo.sheets["dipper"], demo.sheets["redshank"])


def _section(page: Page, anchor: str) -> Section:
    return next(s for s in page.sections if s.anchor == anchor)


def test_a_build_that_is_only_planned_is_said_first_of_all(demo: Checked) -> None:
    for other in ("dipper", "pipit"):
        for pair in (("curlew", other), (other, "curlew")):
            page = pair_page(*(demo.sheets[n] for n in pair))
            assert page.summary.startswith(
                "Curlew is only planned: its figures are expected, not flown."
            )


def test_each_build_that_was_not_flown_is_named(demo: Checked) -> None:
    """A build without a flight that counts, planned or not; both where neither flew."""
    seen = set()
    for a in demo.sheets.values():
        for b in demo.sheets.values():
            if a is b:
                continue
            found = difference_of(a.build, a.results, b.build, b.results)
            said = verdict_line(found, a.build, b.build).casefold()
            for sheet in (a, b):
                flown = [f for f in sheet.build.source.flights if not f.leave_out]
                name = sheet.build.name
                told = f"{name} is only planned" in said or f"{name} has no logged flight" in said
                assert told == (not flown), f"{name}: {said}"
                seen.add(told)
    assert seen == {True, False}


def test_what_differs_is_said_first_and_fewer_flights_after_it(demo: Checked) -> None:
    page = pair_page(demo.sheets["dipper"], demo.sheets["dipper-light"])
    assert page.summary.startswith("Dipper-light is 10.9 g lighter dry")
    assert page.summary.endswith("Dipper-light rests on 2 logged flights, dipper on 4.")
    assert "of which motor 10.8 g (4 × 2.7 g)" in page.summary


def test_as_many_flights_say_nothing_of_flights(demo: Checked) -> None:
    a = demo.sheets["dipper"]
    assert "logged" not in verdict_line(
        difference_of(a.build, a.results, a.build, a.results), a.build, a.build
    )


def test_limits_are_said_by_pack(demo: Checked) -> None:
    page = pair_page(demo.sheets["dipper"], demo.sheets["redshank"])
    assert "Dipper keeps 250 g class with every battery, redshank with none" in page.summary


def test_bands_are_those_of_the_figures_over_one_scale(demo: Checked) -> None:
    a, b = demo.sheets["dipper"], demo.sheets["dipper-light"]
    drawing = bands(a, b)
    assert drawing is not None
    bars = [i for i in drawing.items if isinstance(i, Rectangle)]
    figures = [
        s.results.flight.packs[k].endurance_styled for k in ("small", "large") for s in (a, b)
    ]
    assert len(bars) == len(figures) == 4
    spans = [f.band(BAND) for f in figures if isinstance(f, Figure)]
    scale = bars[0].width / (spans[0][1] - spans[0][0])
    for bar, (low, high) in zip(bars, spans, strict=True):
        assert bar.width == pytest.approx(scale * (high - low))
        assert bar.x - bars[0].x == pytest.approx(scale * (low - spans[0][0]))
        assert f"({rounded(low / 60, 1)} to {rounded(high / 60, 1)})" in drawing.alt
    assert bars[1].y == pytest.approx(bars[0].y + bars[0].height)  # one over the other


def test_builds_without_a_pack_of_one_name_are_drawn_together_all_the_same(demo: Checked) -> None:
    page = pair_page(demo.sheets["dipper"], demo.sheets["pipit"])
    flight = _section(page, "flight")
    assert any(isinstance(b, Illustration) for b in flight.blocks)
    assert re.search(
        r"Pipit's longest flight \(long\) is \d+\.\d min shorter than dipper's \(large\)",
        page.summary,
    ), "their bench tables are of one stand, so its error is no reason to doubt the difference"
    page = pair_page(demo.sheets["curlew"], demo.sheets["dipper"])
    assert re.search(
        r"Dipper's longest flight \(large\) is \d+\.\d min shorter than curlew's \(long\)",
        page.summary,
    )


def test_batteries_of_one_name_are_not_taken_for_the_same(demo: Checked) -> None:
    """Both have a battery named long: one of six cells and one of two. What each is stands there."""
    a, b = demo.sheets["curlew"].build, demo.sheets["pipit"].build
    assert a.packs["long"].shelf != b.packs["long"].shelf
    page = pair_page(demo.sheets["curlew"], demo.sheets["pipit"])
    assert "Pipit's longest flight (long) is" in page.summary
    tables = [b for b in _section(page, "flight").blocks if isinstance(b, Table)]
    longest = next(t for t in tables if t.anchor == "on-longest")
    assert longest.caption == "Longest: curlew on long, pipit on long"
    said = [words(c.pieces) for c in longest.rows[0].cells]
    named = [f"long: {build.packs['long'].part.name}" for build in (a, b)]
    assert said == ["Battery", *named, "another"]
    alike = pair_page(demo.sheets["dipper"], demo.sheets["dipper-light"])
    assert "Their longest flights (large; large) are too close to call" in alike.summary


def test_what_is_not_compared_is_said(demo: Checked) -> None:
    page = pair_page(demo.sheets["curlew"], demo.sheets["dipper"])
    lists = [b for b in _section(page, "flight").blocks if isinstance(b, Bullets)]
    said = [words(item) for one in lists for item in one.items]
    assert said == ["curlew has no logged flight, so nothing is compared as flown."]


def test_the_first_table_answers_which_is_lighter_cheaper_and_longer(demo: Checked) -> None:
    """Each answer against the two figures themselves."""
    a, b = demo.sheets["dipper"], demo.sheets["curlew"]
    page = pair_page(a, b)
    assert page.sections[0].anchor == "short"
    (table,) = page.sections[0].blocks
    assert isinstance(table, Table)
    rows = {r.anchor: [words(c.pieces) for c in r.cells] for r in table.rows}
    masses = [min(f.value for f in s.results.mass.all_up.values()) for s in (a, b)]
    grams = rounded(1000 * (masses[1] - masses[0]), 1)
    assert rows["head-lightest"][1] == "dipper"
    assert rows["head-lightest"][2].startswith(f"{grams} g")
    assert rows["head-longest"][1] == "curlew"
    costs = [s.results.budget.this_build.minor for s in (a, b)]
    assert rows["head-cost"][1:] == ["dipper", f"{(costs[1] - costs[0]) / 100:.2f} EUR", "yes"]


def test_turning_counts_joints_and_hours_of_what_differs(demo: Checked) -> None:
    """The motors of the variant alone: 12 leads off, 12 on, at the speed controller (one joint each)."""
    a, b = demo.sheets["dipper"], demo.sheets["dipper-light"]
    work = difference_of(a.build, a.results, b.build, b.results).work
    assert work.joints_off == work.joints_on
    assert len(work.loose) == len(work.made) >= 12
    same = difference_of(a.build, a.results, a.build, a.results).work
    assert (same.joints_off, same.joints_on, same.parts_on, same.time) == (0, 0, 0, (0.0, 0.0))


def test_the_front_page_names_the_pack_of_each_figure(demo: Checked) -> None:
    """The lightest weight is on one pack, the longest flight on another: neither may pass for the
    other's.
    """
    page = front_page([summarise(s) for s in demo.sheets.values()], site_pages(demo.workspace.site))
    table = next(b for s in page.sections for b in s.blocks if isinstance(b, Table))
    notes = {words(r.cells[0].pieces): (r.cells[4].note, r.cells[5].note) for r in table.rows}
    assert notes["Dipper 3"] == ("with battery small", "with battery large")
    assert notes["Curlew 7"] == ("with battery short", "with battery long")
    for name, sheet in demo.sheets.items():
        lightest = min(sheet.results.mass.all_up, key=lambda p: sheet.results.mass.all_up[p].value)
        assert notes[sheet.build.title][0] == f"with {sheet.results.mass.flown_with(lightest)}", (
            name
        )


def test_all_of_both_is_there_on_request_without_scripts(demo: Checked) -> None:
    a, b = demo.sheets["dipper"], demo.sheets["redshank"]
    page, found = pair_page(a, b), difference_of(a.build, a.results, b.build, b.results)
    for anchor, lines in (("wiring", found.wiring), ("order", found.order)):
        rows = 0
        for block in _section(page, anchor).blocks:
            inner = block.blocks if isinstance(block, Fold) else (block,)
            tables = [
                t for t in inner if isinstance(t, Table) and not t.caption.startswith("Plugs")
            ]
            rows += sum(len(t.rows) for t in tables)
        assert rows == len(lines)
    alike = [b for s in page.sections for b in s.blocks if isinstance(b, Fold) and b.alike]
    assert {"places", "wires", "steps", "settings"} <= {w for f in alike for w in f.title.split()}


def test_another_wire_between_the_same_pads_is_a_difference(demo: Checked) -> None:
    sheet = demo.sheets["dipper"]
    build = sheet.build
    run = next(i for i, w in enumerate(build.wires) if w.wire.colour == "yellow")
    wire = build.wires[run].wire.model_copy(update={"colour": "white"})
    joins = tuple(
        replace(j, wire=wire) if j.wire == build.wires[run].wire else j
        for j in sheet.results.netlist.joins
    )
    nets = replace(sheet.results.netlist, joins=joins)
    other = replace(sheet.results, netlist=nets)
    changed = [c for c in difference_of(build, sheet.results, build, other).wiring if c.differs]
    assert len(changed) == 1
    assert changed[0].nets[0] == changed[0].nets[1]


def test_all_pairs_are_made_up_to_the_bound_and_few_beyond_it() -> None:
    few = [f"b{i}" for i in range(ALL_PAIRS_UP_TO)]
    assert len(pairs_to_compare(few, {}, ())) == len(few) * (len(few) - 1) // 2 == 28
    for count in (ALL_PAIRS_UP_TO + 1, 50, 400):
        many = [f"b{i:03}" for i in range(count)]
        bases = dict.fromkeys(many[1::4], many[0])
        named = [(many[1], many[2]), (many[2], many[1]), ("b000", "gone")]
        made = pairs_to_compare(many, bases, named)
        assert len(made) == len(bases) + 1
        assert (many[0], many[1]) in made


def test_the_terminal_prints_the_page(root: Path, page: Page) -> None:
    made = CliRunner().invoke(cli, ["compare", "dipper", "redshank", "--workspace", str(root)])
    assert made.exit_code == 0
    text = " ".join(made.output.split())
    assert " ".join(page.summary.split()) in text
    for table in _tables(page, alike=False):
        for row in table.rows:
            for cell in row.cells:
                assert _first_words(cell) in text, row
    whole = (
        CliRunner()
        .invoke(cli, ["compare", "dipper", "redshank", "--all", "--workspace", str(root)])
        .output
    )
    for table in _tables(page, alike=True):
        for row in table.rows:
            assert _first_words(row.cells[0]) in " ".join(whole.split())


def _tables(page: Page, *, alike: bool) -> list[Table]:
    out = []
    for section in page.sections:
        for block in section.blocks:
            if isinstance(block, Table):
                out.append(block)
            elif isinstance(block, Fold) and (alike or not block.alike):
                out += [b for b in block.blocks if isinstance(b, Table)]
    return out


def _first_words(cell: Cell) -> str:
    """The start of a cell: a long one goes on in the next line, beside its neighbours."""
    return " ".join(words(cell.pieces)[:20].split()[:2])


def test_json_says_the_same_as_the_page(root: Path, page: Page, demo: Checked) -> None:
    made = CliRunner().invoke(
        cli, ["compare", "dipper", "redshank", "--json", "--workspace", str(root)]
    )
    assert made.exit_code == 0
    assert made.output.isascii()
    record = json.loads(made.output)
    assert record["verdict"] == page.summary
    a, b = demo.sheets["dipper"], demo.sheets["redshank"]
    found = difference_of(a.build, a.results, b.build, b.results)
    assert {f["key"]: f["difference"]["value"] for f in record["figures"]} == {
        p.key: p.change.value
        for p in (found.dry, *found.all_up, *found.flight)
        if isinstance(p.change, Figure)
    }
    assert [p["place"] for p in record["parts"]] == [p.key for p in found.parts]
    assert len(record["wiring"]) == sum(c.differs for c in found.wiring)
    assert len(record["steps"]) == sum(c.differs for c in found.order)
    assert record["money"]["to_convert"] == found.conversion.money.minor
    assert record["money"]["to_convert"] != record["money"]["second"] - record["money"]["first"]
    assert {s["place"] for s in record["could_stay"]} >= {"motor", "frame"}


def test_what_fits_is_said_with_the_rules_reason(page: Page) -> None:
    folds = [b for b in _section(page, "turning").blocks if isinstance(b, Fold)]
    stays = next(f for f in folds if f.title.startswith("Could parts"))
    table = next(b for b in stays.blocks if isinstance(b, Table))
    answers = [words(r.cells[2].pieces) for r in table.rows]
    many = sum(answer.startswith("yes") for answer in answers)
    assert f"? {many} of {len(answers)} could" in stays.title
    rows = {words(r.cells[0].pieces): r for r in table.rows}
    assert words(rows["propeller"].cells[2].pieces) == "no"
    assert any(
        isinstance(p, Span) and p.link == "rules/index.html#rule-fit-bore-unlike-shaft"
        for p in rows["propeller"].cells[3].pieces
    )
