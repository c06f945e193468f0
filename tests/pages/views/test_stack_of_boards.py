"""The stack in section and apart as a browser draws it: which board lies over which, by the places that the
build says, whichever way the layers are listed; and which lies face down.
"""

from dataclasses import replace
from typing import Any

import pytest

from builder.model.build import ScrewPlace
from builder.pages.drawing import Drawing
from builder.pages.sheet_input import SheetInput
from builder.pages.views.stack_drawings import stack_apart, stack_section
from builder.pipeline.check import Checked
from tests.pages.views.drawn import boxes, lying, show

STACKED = ("curlew", "dipper", "dipper-light", "redshank", "turnstone")


def _turned(place: ScrewPlace) -> ScrewPlace:
    layers = tuple(place.screw.through[::-1])
    return replace(place, screw=place.screw.model_copy(update={"through": layers}))


def _from_above(sheet: SheetInput) -> SheetInput:
    """The same stack, its layers listed from a head that is above."""
    screws = tuple(_turned(p) if p.screw.place == "stack" else p for p in sheet.build.screws)
    return replace(sheet, build=replace(sheet.build, screws=screws))


def _said(canvas: Any, drawing: Drawing | None) -> list[str]:
    """The words from the top of the picture down."""
    assert drawing is not None
    found = boxes(show(canvas, drawing), "text")
    return [b["text"] for b in sorted(found, key=lambda b: b["top"])]


def _at(words: list[str], name: str) -> int:
    (found,) = [i for i, w in enumerate(words) if name in w]
    return found


@pytest.mark.parametrize("name", STACKED)
def test_the_higher_board_is_drawn_higher_and_by_its_own_name(
    canvas: Any, demo: Checked, name: str
) -> None:
    sheet = demo.sheets[name]
    places = {k: f.use.at.z for k, f in sheet.build.parts.items() if f.use.at is not None}
    higher = places["controller"] > places["esc"]
    section = _said(canvas, stack_section(sheet))
    assert (_at(section, "(controller)") < _at(section, "(esc)")) == higher
    apart = _said(canvas, stack_apart(sheet))
    assert (_at(apart, " controller,") < _at(apart, " esc,")) == higher
    assert not any("up is drawn down" in w or "face down" in w for w in (*section, *apart))


@pytest.mark.parametrize("name", STACKED)
def test_layers_from_a_head_above_keep_their_names_and_say_so(
    canvas: Any, demo: Checked, name: str
) -> None:
    section = _said(canvas, stack_section(_from_above(demo.sheets[name])))
    assert any(w.startswith("control board (controller)") for w in section)
    assert any(w.startswith("speed controller board (esc)") for w in section)
    assert any(
        w.startswith("stack: ") and w.endswith("from above: up is drawn down") for w in section
    )


def test_a_board_that_lies_face_down_says_so(canvas: Any, demo: Checked) -> None:
    sheet = lying(demo.sheets["redshank"], esc=(0.0, "down"), controller=(0.0, "up"))
    for drawing in (stack_section(sheet), stack_apart(sheet)):
        down = [w for w in _said(canvas, drawing) if "face down" in w]
        assert len(down) == 1 and "esc" in down[0] and "controller, face" not in down[0]
