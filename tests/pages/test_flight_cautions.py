"""What can hurt somebody, or burn a battery, is said where a flight is planned. All of it is common
practice, no source.
"""

import pytest

from builder.compute.figures.figure import Unknown
from builder.pages.blocks import Notice, Section, Span
from builder.pages.sections.flight import flight_section
from builder.pages.sheet_input import SheetInput
from builder.pipeline.check import Checked
from builder.rules.cautions import cautions_for
from tests.pages.test_setup_and_upkeep import _walk


def _said(section: Section) -> str:
    """All that it says, notes of cells and tables included."""
    held = (getattr(x, "note", "") for x in _walk(section))
    spans = (x.text for x in _walk(section) if isinstance(x, Span))
    return " ".join(
        [*spans, *(n for n in held if isinstance(n, str)), *(n.title for n in _notices(section))]
    )


def _notices(section: Section) -> list[Notice]:
    return [x for x in _walk(section) if isinstance(x, Notice)]


def _sheet(demo: Checked, name: str) -> SheetInput:
    return demo.sheets[name]


@pytest.mark.parametrize(
    ("name", "over"), [("redshank", True), ("curlew", False), ("dipper", False), ("pipit", False)]
)
def test_a_rating_that_full_throttle_exceeds_is_a_warning(
    demo: Checked, name: str, *, over: bool
) -> None:
    """By hand from the table: 89 A against 49.5 A on the Redshank, 60.8 A and 54.9 A against 65 A
    and 60 A on the Curlew.
    """
    found = [
        n for n in _notices(flight_section(_sheet(demo, name))) if n.anchor == "full-throttle-over"
    ]
    assert bool(found) is over
    assert all(
        "Limit the throttle" in n.pieces[0].text for n in found if isinstance(n.pieces[0], Span)
    )


@pytest.mark.parametrize(
    ("name", "volts"),
    [
        ("dipper", "3.58 V a cell, 14.3 V of the battery"),
        ("pipit", "3.58 V a cell, 7.2 V of the battery"),
        ("curlew", "3.30 V a cell, 19.8 V of the battery"),  # lithium-ion
    ],
)
def test_landing_volts_stand_on_the_sheet(demo: Checked, name: str, volts: str) -> None:
    """The demo's setup keeps 20 %, which is nearer to a flight than what the shelf says of a battery
    in any build. By hand from the curves of resting volts (from memory): 3.73 V and 3.45 V, and
    0.15 V less under load; times the cells.
    """
    assert volts in _said(flight_section(_sheet(demo, name)))


def test_times_that_empty_the_battery_say_so(demo: Checked) -> None:
    said = _said(flight_section(_sheet(demo, "dipper")))
    assert "under the usual 20 %" in said
    assert "The timer sounds first in nine flights of ten." in said


@pytest.mark.parametrize(
    "said",
    [
        "below 0 °C",
        "the battery's chemistry, cells and charge current",
        "3.8 V a cell",
        "equal cells and volts",
        "keep away",
    ],
)
def test_charging_and_storing(demo: Checked, said: str) -> None:
    pack = next(c for c in cautions_for(_sheet(demo, "dipper").build) if c.key == "pack")
    assert said in pack.text


def test_goggles_want_an_observer(demo: Checked) -> None:
    assert (
        "observer"
        in next(c for c in cautions_for(_sheet(demo, "dipper").build) if c.key == "goggles").text
    )


def test_a_rating_inside_the_band_of_what_it_carries_is_too_close_to_call(demo: Checked) -> None:
    """Bands worked out here: 1.2816 deviations to either side hold eight of ten normal values."""
    for name in ("curlew", "dipper", "turnstone", "redshank"):
        for row in demo.sheets[name].results.flight.limits:
            if isinstance(row.current, Unknown) or isinstance(row.limit, Unknown):
                continue
            off = abs(row.limit.value - row.current.value) / row.current.spread
            assert row.close == (off < 1.2816), (name, row.what)
    said = _said(flight_section(demo.sheets["curlew"]))
    assert "too close to call" in said
    assert "60 A without a break" in said
