"""A copier reads where a part sits, also how high, what holds it, and how high the spacers of the
stack are; what nobody says is called so. Heights of plates are read from the shelf's entries here.

Common practice, no source.
"""

import re
from pathlib import Path

import pytest

from builder.compute.compute import compute
from builder.compute.order.work_order import Plan
from builder.model.build import Build
from builder.pages.told_words import told_words
from builder.pipeline.check import Checked
from tests.compute.small_workspace import one_build
from tests.workspace_edits import judged_after

DEMO = ("dipper", "dipper-light", "redshank", "curlew", "pipit", "turnstone")
SHELF = """
frame:
  kind: frame
  name: Frame
  plates: [PLATES]
esc:
  kind: speed-controller
  name: Esc
  rails: {five: {volts: 5 V}}
  pads:
    BAT+: {role: draws, battery: yes, polarity: plus}
    G: {role: ground, battery: yes, polarity: minus}
    V: {role: supply, rail: five}
lamp: {kind: lights, name: Lamp, pads: {P: {role: draws}, M: {role: ground}}}
screw: {kind: hardware, form: screw, name: Screw, thread: M3, length: 28 mm}
nut: {kind: hardware, form: nut, name: Nut, thread: M3}
spacer: {kind: hardware, form: spacer, name: Spacer HIGH}
"""
BUILD = """
title: T
parts:
  frame: frame
  esc: esc
  lamp: {use: lamp, at: '10 mm, 0 mm, Z mm'}
  screw: {use: screw, count: 4}
  nut: {use: nut, count: 8}SPACER
wires:
  - {from: lamp.P, to: esc.V, length: 50 mm}
  - {from: lamp.M, to: esc.G, length: 50 mm}
screws:
  - place: stack
    use: screw
    count: 4
    into: nut
    through:
      - {what: base plate, thick: 2 mm}
      - {what: spacer nut, thick: 7 mm}
      - {what: board, thick: 1.6 mm}
"""
BASE = "{what: base plate, at: '0 mm, 0 mm, 1 mm', size: 100 x 40 x 2 mm}"
TOP = "{what: top plate, at: '0 mm, 0 mm, 35 mm', size: 60 x 40 x 2 mm}"


def _said(build: Build) -> dict[str, str]:
    plan = compute(build).order
    assert isinstance(plan, Plan)
    return {s.id: told_words(s.text) for s in plan.steps}


def _made(plates: str = "", z: int = 20, high: str = "", spacer: str = "") -> dict[str, str]:
    length = f", length: {high}" if high else ""
    shelf = SHELF.replace("PLATES", plates).replace("Spacer HIGH", f"Spacer{length}")
    return _said(one_build(shelf, BUILD.replace("Z mm", f"{z} mm").replace("SPACER", spacer)))


@pytest.mark.parametrize(
    ("plates", "z", "where"),
    [
        (f"{BASE}, {TOP}", 20, "between the plates, 10 mm in front"),
        (f"{BASE}, {TOP}", 40, "above the top plate, 10 mm in front"),
        (f"{BASE}, {TOP}", -5, "below the base plate, 10 mm in front"),
        (BASE, 40, "in its place, 10 mm in front"),
        ("", 40, "in its place, 10 mm in front"),
    ],
)
def test_how_high_a_part_sits_is_said_by_plates(plates: str, z: int, where: str) -> None:
    assert where in _made(plates, z)["mount lamp"]


def test_what_sits_on_the_plate_that_is_off_is_fitted_with_it_beside_the_frame() -> None:
    on, between = _made(f"{BASE}, {TOP}", 40), _made(f"{BASE}, {TOP}", 20)
    assert "so long that the top plate can lie beside the frame" in on["mount lamp"]
    assert "Tape the top plate aside until it is fitted" in on["tie"]
    assert "top plate can lie" not in between["mount lamp"]
    assert "top plate" not in between["tie"]


def test_what_holds_a_part_is_called_not_listed_where_nobody_says_it() -> None:
    assert "What holds it is not listed here" in _made()["mount lamp"]


@pytest.mark.parametrize("name", DEMO)
def test_no_load_of_a_demo_build_is_left_without_a_hold(demo: Checked, name: str) -> None:
    """A note, screws, a sleeve that is tied down, a cover, or a step of the builder's own."""
    said = _said(demo.sheets[name].build)
    assert not [s for s, text in said.items() if "What holds it is not listed" in text]
    buzzer = said["mount buzzer"]
    assert "holds it" in buzzer


def test_a_spacer_without_its_height_is_called_so() -> None:
    """An ordinary M3 nut is 2.4 mm high (ISO 4032): seven are wanted."""
    listed = "\n  spacer: {use: spacer, count: 4}"
    assert "no spacer nut that is said to be 7 mm high" in _made()["screws"]
    assert "no spacer nut that is said to be 7 mm high" in _made(spacer=listed)["screws"]
    assert "no spacer nut" in _made(spacer=listed, high="5 mm")["screws"]
    assert "no spacer nut" not in _made(spacer=listed, high="7 mm")["screws"]


def test_the_stacks_of_the_demo_have_their_spacers(demo: Checked) -> None:
    for name, high in (("turnstone", "7 mm"), ("curlew", "7 mm"), ("dipper", "5.5 mm")):
        said = _said(demo.sheets[name].build)["screws"]
        assert "the list has no" not in said
        assert re.search(rf"4 × M\d spacer, {high} high", said)


def test_payload_and_balance_say_how(demo: Checked) -> None:
    said = _said(demo.sheets["turnstone"].build)["balance"]
    assert (
        "Put Beck water sampler, two vials, own battery in its place, below the base plate" in said
    )
    assert re.search(r"its builder notes: \S", said, re.I)
    assert "If the nose drops, move the battery back" in said


def test_a_payload_that_nobody_says_how_to_hold(tmp_path: Path) -> None:
    note = ", note: 'the cradle holds it'"
    checked = judged_after(tmp_path, "redshank", "redshank/build.yaml", note, "")
    assert "What holds it is not listed here" in _said(checked.sheets["redshank"].build)["balance"]
