"""A board by itself: contacts in the order that its maker lists, the underside mirrored and saying
so.
"""

from collections import Counter

import pytest
from hypothesis import HealthCheck, given, settings

from builder.compute.circuit.nets import netlist
from builder.model.build import Build, Contact
from builder.pages.drawing import Drawing, Words
from builder.pages.drawings.board_drawing import board_drawing
from builder.pipeline.check import Checked
from tests.compute.small_workspace import FRAME, one_build
from tests.pages.drawings.lines_of_a_drawing import words
from tests.pages.drawings.random_wirings import wirings

BOARD = """
board:
  kind: flight-controller
  name: Made up
  mass: {measured: 5 g, scale: 0.1 g}
  edges: {left: [L1, L2], right: [R1, R2], front: [F1, F2], rear: [B1, B2], under: {left: [U1, U2], front: [V1, V2]}}
  sockets: {J: {edge: rear, latch: top, contacts: [J1, J2, J3]}, K: {edge: front, latch: top, contacts: [K1, K2]}}
  pads: {L1: {role: ground}, L2: {role: sense}, R1: {role: sense}, R2: {role: sense}, F1: {role: sense},
         F2: {role: sense}, B1: {role: sense}, B2: {role: sense}, U1: {role: sense}, U2: {role: sense},
         V1: {role: sense}, V2: {role: sense}, J1: {role: sense}, J2: {role: sense}, J3: {role: sense},
         K1: {role: sense}, K2: {role: sense}, X1: {role: sense}}
camera: {kind: camera, name: Camera, mass: {measured: 5 g, scale: 0.1 g}, pads: {GND: {role: ground}}}
"""
WIRED = """
title: Test
parts: {frame: frame, board: board, camera: camera}
wires: [{from: camera.GND, to: board.L1}]
"""


@pytest.fixture(scope="module")
def drawing() -> Drawing:
    build = one_build(FRAME + BOARD, WIRED)
    return board_drawing(build, netlist(build), "board")


def _places(drawing: Drawing) -> dict[str, Words]:
    return {w.text: w for w in words(drawing)}


def test_edges_read_as_the_maker_lists_them(drawing: Drawing) -> None:
    """Left and right from top to bottom, front and rear from left to right, seen from above with
    the arrow up.
    """
    at = _places(drawing)
    assert at["L1"].y < at["L2"].y
    assert at["R1"].y < at["R2"].y
    assert at["F1"].x < at["F2"].x
    assert at["B1"].x < at["B2"].x
    assert at["L1"].x < at["F1"].x < at["R1"].x
    assert at["F1"].y < at["L1"].y < at["B1"].y


def test_sockets_are_seen_from_outside_with_the_latch_up(drawing: Drawing) -> None:
    """Who looks at the rear of a board from behind has its left on his left; at the front he has it
    on his right.
    """
    at = _places(drawing)
    assert at["J1"].x < at["J2"].x < at["J3"].x
    assert at["K2"].x < at["K1"].x


def test_the_underside_is_mirrored_and_says_so(drawing: Drawing) -> None:
    at = _places(drawing)
    title = next(w for w in words(drawing) if "underside" in w.text)
    assert "left and right swapped" in title.text
    assert at["U1"].x > title.x, "the left edge lies right when the board is turned over"
    assert at["U1"].y < at["U2"].y, "turned about its arrow, what is in front stays in front"
    assert at["V2"].x < at["V1"].x
    assert at["U1"].y > at["B1"].y, "below the upper face"


def test_wired_contacts_differ_from_free_ones_without_colour(drawing: Drawing) -> None:
    at = _places(drawing)
    assert at["L1"].tone != at["L2"].tone
    assert any("place not stated" in w.text and "X1" in w.text for w in words(drawing))


def test_a_board_that_is_not_there(drawing: Drawing) -> None:
    build = one_build(FRAME + BOARD, WIRED)
    with pytest.raises(KeyError):
        board_drawing(build, netlist(build), "no-such-board")


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(wirings())
def test_every_contact_is_shown_once(build: Build) -> None:
    nets = netlist(build)
    for fitted in build.parts.values():
        if fitted.part.pads:
            drawing = board_drawing(build, nets, fitted.key)
            shown = Counter(
                name
                for w in words(drawing)
                if w.tone.startswith("mono")
                for name in w.text.removeprefix("place not stated: ").split(" ")
            )
            assert shown == Counter(Contact(fitted.key, 0, p).pad for p in fitted.part.pads)
            assert all(
                0 <= w.x <= drawing.width and 0 <= w.y <= drawing.height for w in words(drawing)
            )


def test_all_boards_of_the_demo(demo: Checked) -> None:
    for build in demo.workspace.builds.values():
        nets = netlist(build)
        for board in dict.fromkeys(c.board for c in nets.at):
            drawn = board_drawing(build, nets, board)
            assert drawn == board_drawing(build, nets, board)
            assert drawn.height < 250, "fits a page"
