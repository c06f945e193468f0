"""A step that plugs shows which contact meets which, as the cable of the build says."""

from typing import Any

import pytest

from builder.pages.sheet_input import SheetInput
from builder.pipeline.check import Checked
from tests.pages.views.drawn import lying
from tests.pages.views.test_step_pictures import _nearest, _pictures, _read


def _told(canvas: Any, sheet: SheetInput) -> set[tuple[str, str]]:
    """The contact of the board and the word at it, of all steps that plug."""
    pictures = _pictures(sheet, joints=False)
    read = _read(canvas, [d for _, d in pictures])
    bases = {r["base"]: r for r in read if not r["again"]}
    out = set()
    for (group, _), shown in zip(pictures, read, strict=True):
        if not any(s.id.startswith("plug ") for s in group.steps):
            continue
        for word in (t for t in shown["texts"] if t["strong"]):
            out.add((_nearest(word, bases[shown["base"]]), word["text"]))
    return out


def _met(sheet: SheetInput) -> set[frozenset[str]]:
    joins = sheet.results.netlist.joins
    return {frozenset((j.a.pad, j.b.pad)) for j in joins if j.by == "plug"}


@pytest.mark.parametrize("name", ["curlew", "dipper", "redshank", "pipit"])
def test_contacts_meet_as_the_cable_says(canvas: Any, demo: Checked, name: str) -> None:
    sheet = demo.sheets[name]
    told = {frozenset((own, far.split(".")[-1])) for own, far in _told(canvas, sheet)}
    assert told == _met(sheet)
    assert len(told) >= 8


@pytest.mark.parametrize("turned", [(90.0, "down"), (180.0, "up"), (270.0, "down")])
def test_on_a_board_that_is_turned_too(
    canvas: Any, demo: Checked, turned: tuple[float, str]
) -> None:
    sheet = lying(demo.sheets["redshank"], esc=turned)
    assert {frozenset(pair) for pair in _told(canvas, sheet)} == _met(sheet)
