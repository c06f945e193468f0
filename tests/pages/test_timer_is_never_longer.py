"""A timer that is printed is never longer than the one that was computed."""

import re

import pytest

from builder.compute.figures.figure import Figure, constant
from builder.pages.numbers import number
from builder.pages.site.build_page import sheet_pages
from builder.pipeline.check import Checked
from builder.rounding import rounded_down


@pytest.mark.parametrize(
    ("value", "text"), [(4.199, "4.1"), (4.15, "4.1"), (4.1, "4.1"), (0.3, "0.3"), (5.0, "5.0")]
)
def test_a_time_is_cut_and_not_rounded(value: float, text: str) -> None:
    assert rounded_down(value, 1) == text


def test_the_number_of_a_timer_is_cut() -> None:
    assert number(constant("flight/small/reserve/timer", "Timer", 60 * 4.97, "s")).value == "4.9"


@pytest.mark.parametrize(
    "name", ["curlew", "dipper", "dipper-light", "pipit", "redshank", "turnstone"]
)
def test_every_timer_of_the_demo_is_at_most_what_was_computed(demo: Checked, name: str) -> None:
    sheet = demo.sheets[name]
    words = repr(sheet_pages(sheet))
    shown = 0
    for pack in sheet.results.flight.packs.values():
        timer = pack.reserve.timer
        assert isinstance(timer, Figure)
        found = re.findall(rf"Number\(value='([\d.]+)', unit='min'[^)]*{timer.anchor}'", words)
        shown += len(found)
        assert all(60 * float(text) <= timer.value + 1e-9 for text in found)
    assert shown >= len(sheet.results.flight.packs)
