"""A page in ounces, inches and degrees Fahrenheit: factors, digits, what stays.

Factors: NIST SP 811 (2008), appendix B.8 and B.9 (from memory): 1 oz (avoirdupois) =
28.349 523 125 g, 1 in = 25.4 mm, 1 ft = 0.3048 m, t/degF = 1.8 t/degC + 32, all exact.
"""

import re
from fractions import Fraction

import pytest

from builder.model.site import ShownUnits
from builder.pages.blocks import (
    Bullets,
    Cell,
    Column,
    Facts,
    Fold,
    Number,
    Page,
    Paragraph,
    Row,
    Section,
    Side,
    Span,
    Step,
    Steps,
    Table,
    TwoStacks,
    WriteIn,
)
from builder.pages.page_text import page_text, words
from builder.pages.paper.bench_sheet import bench_sheet, field_card_sheet, gates_sheet
from builder.pages.site.site_pages import site_pages
from builder.pages.units.converted import OTHER_UNITS, converted, converted_spread
from builder.pages.units.in_units import in_units
from builder.pages.units.measures import in_measure, in_place_of_wire_or_iron
from builder.pipeline.check import Checked
from builder.render.html.page import template_texts
from builder.render.paper.pdf import bench_sheet_html

ALL = "oz in degF"
CHOICES = frozenset(ALL.split())
# SP 811: one of the other unit in the unit that is shown in metric, and where its scale begins.
EXACT = {
    "g": (Fraction("28.349523125"), 0),
    "mm": (Fraction("25.4"), 0),
    "m": (Fraction("0.3048"), 0),
    "°C": (Fraction(5, 9), 32),
}


@pytest.mark.parametrize("unit", sorted(EXACT))
@pytest.mark.parametrize("places", [0, 1, 2])
def test_each_number_is_the_nearest_that_its_digits_can_say(unit: str, places: int) -> None:
    """And its last digit is worth a quarter of what it was, up to three times of it."""
    size, zero = EXACT[unit]
    for count in range(0, 2_900, 7):
        shown = f"{count / 10**places:.{places}f}"
        made = converted(shown, OTHER_UNITS[unit])
        step = Fraction(1, 10 ** len(made.partition(".")[2]))
        exact = Fraction(shown) / size + zero
        assert abs(Fraction(made.replace("\u2212", "-")) - exact) <= step / 2
        assert Fraction(1, 4) <= step * size * 10**places < 3


@pytest.mark.parametrize(
    ("shown", "unit", "other"),
    [
        ("228.7", "g", "8.07"),
        ("+0.3", "g", "+0.01"),
        ("\u22122.2", "g", "\u22120.08"),
        ("0.0", "g", "0.00"),
        ("65", "mm", "2.56"),
        ("72.8", "m", "238.8"),
        ("350", "°C", "662"),
        ("\u221240", "°C", "\u221240"),
        ("\u221220", "°C", "\u22124"),
    ],
)
def test_numbers_by_hand(shown: str, unit: str, other: str) -> None:
    assert converted(shown, OTHER_UNITS[unit]) == other


@pytest.mark.parametrize(("shown", "other"), [("0.3", "0.01"), ("0.1", "0.004"), ("33.1", "1.17")])
def test_a_spread_never_vanishes(shown: str, other: str) -> None:
    assert converted_spread(shown, OTHER_UNITS["g"], 2) == other


def test_a_spread_of_degrees_has_no_zero_point() -> None:
    """4 degC of spread are 7.2 degF of spread, not 39 (SP 811, B.8: temperature interval)."""
    assert converted_spread("4", OTHER_UNITS["°C"]) == "7"


def test_a_measure_in_text_and_what_is_none() -> None:
    assert in_measure("trim to 125 / 3 mm", CHOICES) == "trim to 4.92 / 0.12 in"
    assert in_measure("404.3 to 415.5\u00a0g", CHOICES) == "14.26 to 14.66\u00a0oz"
    assert in_measure("3 mm²; 10 mm/s; 5 g/W", CHOICES) == "3 mm²; 10 mm/s; 5 g/W"
    placed = "red RD 12 AWG 95 mm; medium tip, 380 °C; M2 x 6 mm; 12 mm of it"
    made = "red RD 12 AWG 3.74 in; medium tip, 716 °F; M2 x 6 mm; 12 mm of it"
    assert in_place_of_wire_or_iron(placed, CHOICES) == made
    assert in_place_of_wire_or_iron("broad tip, up to 420 °C", CHOICES).endswith("788 °F")
    assert in_place_of_wire_or_iron(placed, frozenset({"oz"})) == placed


def _page(*blocks: object) -> Page:
    return Page("x/index.html", "sheet", "X", "", (Section("s", "S", blocks),))  # type: ignore[arg-type]


FLIES = Number("228.7", "g", "± 0.3", "wren/mass")
LEGAL = Number("250.00", "g", "", "site/limits/1/mass")


def test_figures_wherever_they_are() -> None:
    columns = (
        Column("Part"),
        Column("Each", "g", "right"),
        Column("Length"),
        Column("Spread", "g"),
    )
    pieces = (Span("frame, 85 mm"),), (Number("122.50"),), (Span("60 mm"),), (Span("± 0.3"),)
    table = Table(
        "Parts", columns, (Row(tuple([Cell(piece) for piece in pieces])), Row((Cell((LEGAL,)),)))
    )
    step = Step(
        "1",
        "k",
        (Span("Strip 3 mm."),),
        (("bare", (Span("3 mm"),)), ("beside", (Span("B at 1 mm"),))),
    )
    held = (
        Paragraph((Span("It weighs "), FLIES, Span(" below 250 g."))),
        Side(Bullets(((FLIES,),)), Facts((("Air", Cell((Span("15 °C"),))),))),
        Fold("More", (TwoStacks((table,), (Steps((step,)),)),)),
    )
    made = in_units(_page(*held), ALL)
    text = page_text(made)
    assert "It weighs 8.07 oz ± 0.01 below 250 g." in text
    side = made.sections[0].blocks[1]
    assert isinstance(side, Side)
    assert side.first == Bullets(((Number("8.07", "oz", "± 0.01", "wren/mass"),),))
    assert side.second == Facts((("Air", Cell((Span("59 °F"),))),))
    fold = made.sections[0].blocks[2]
    assert isinstance(fold, Fold) and isinstance(fold.blocks[0], TwoStacks)
    (first,), (second,) = fold.blocks[0].first, fold.blocks[0].second
    assert isinstance(first, Table) and isinstance(second, Steps)
    told = [[p.text if isinstance(p, Span) else p for p in c.pieces] for c in first.rows[0].cells]
    assert told == [["frame, 85 mm"], [Number("4.321")], ["2.36 in"], ["± 0.01"]]
    assert [c.unit for c in first.columns] == ["", "oz", "", "oz"]
    law = first.rows[1].cells[0].pieces[0]
    assert isinstance(law, Number)
    assert (law.value, law.unit) == ("250.00", "g (8.818 oz)"), "never above 250 g"
    done = second.items[0]
    assert isinstance(done, Step)
    assert [words(said) for _, said in done.facts] == ["0.12 in", "B at 1 mm"]
    assert done.text == (Span("Strip 3 mm."),)


def test_what_stays() -> None:
    screws = Table("Screws by place", (Column("Grip"),), (Row((Cell((Number("5.0", "mm"),)),)),))
    kept = _page(
        screws, Paragraph((Number("15.2", "V"), Number("unknown"), WriteIn("k", "Dry", "g")))
    )
    assert in_units(kept, ALL) == kept
    assert in_units(_page(Paragraph((FLIES,))), "in degF") == _page(Paragraph((FLIES,)))
    assert in_units(_page(Paragraph((FLIES,))), "") == _page(Paragraph((FLIES,)))


def test_paper_is_printed_by_the_setting(demo: Checked) -> None:
    """Weights, irons and wires on all three papers; who says nothing gets metric."""
    metric = site_pages(demo.workspace.site)
    site = site_pages(
        demo.workspace.site.model_copy(
            update={"units": ShownUnits(weight="oz", length="in", temperature="degF")}
        )
    )
    assert (metric.units, site.units) == ("", ALL)
    sheet = demo.sheets["pipit"]
    for make in (bench_sheet, gates_sheet, field_card_sheet):
        plain, other = make(sheet, metric, "d"), make(sheet, site, "d")
        assert plain and other
        assert plain.page == in_units(plain.page, "")
        assert other.page == in_units(plain.page, ALL)
    printed = bench_sheet_html(bench_sheet(sheet, site, "d"), site, template_texts(None))
    own = bench_sheet_html(bench_sheet(sheet, metric, "d"), metric, template_texts(None))
    irons = re.compile(r"(?:fine|medium|broad)(?: tip,)? (\d+)\u00a0°([CF])")
    assert [(round(1.8 * int(c) + 32), "F") for c, _ in irons.findall(own)] == [
        (int(f), unit) for f, unit in irons.findall(printed)
    ]
    assert len(irons.findall(own)) > 5
    assert "\u00a0oz" in printed and "\u00a0oz" not in own


def test_the_setting_says_which() -> None:
    assert ShownUnits().choices == ""
    assert ShownUnits(weight="oz", temperature="degF").choices == "oz degF"
