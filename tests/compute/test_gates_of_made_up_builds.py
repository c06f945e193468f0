"""Open joints, bridges of neighbours and swapped wires, put into builds that nobody drew by hand:
each changes a reading that a gate or a step names while the power is off.

The readings are those of a graph that networkx makes, as in test_gates_find_faults.py (common
practice, no source).
"""

from itertools import pairwise

import networkx
import pytest

from builder.compute.compute import compute
from builder.pages.sheet_input import SheetInput
from builder.rules.judge import Verdict
from tests.compute import test_gates_find_faults as meter
from tests.compute.made_up_builds import LOADS, Choice, build_of

STACK = Choice(False, False, 4, True, LOADS, (), ())
ONE_BOARD = Choice(True, True, 4, False, LOADS, ("camera", "lights"), ())
BOTH = pytest.mark.parametrize("choice", [STACK, ONE_BOARD], ids=["stack", "one board"])


def _sheet(choice: Choice) -> SheetInput:
    build = build_of(choice, edges=True)
    return SheetInput(build, compute(build), Verdict((), (), ()))


@BOTH
def test_open_joints_change_a_reading(choice: Choice) -> None:
    sheet = _sheet(choice)
    wires = meter._wires(sheet)
    sound = meter._beeps(sheet, wires)
    opened = [
        w for w in wires if not {meter._kind(sheet, end) for end in w} & {"motor", "capacitor"}
    ]
    missed = [w for w in opened if meter._beeps(sheet, [x for x in wires if x != w]) == sound]
    assert len(opened) == 2 + 3 * len(LOADS)  # battery leads, and three wires of each load
    assert not missed


@BOTH
def test_swapped_wires_of_a_load_change_a_reading(choice: Choice) -> None:
    sheet = _sheet(choice)
    wires = meter._wires(sheet)
    sound = meter._beeps(sheet, wires)
    missed, tried = [], 0
    for one, other in ((a, b) for i, a in enumerate(wires) for b in wires[i + 1 :]):
        boards = [[meter._board(end) for end in wire] for wire in (one, other)]
        if boards[0] != boards[1] or meter._kind(sheet, one[0]) in ("motor", "capacitor"):
            continue
        left = [w for w in wires if w not in (one, other)]
        swapped = [*left, (one[0], other[1]), (other[0], one[1])]
        tried += 1
        if meter._beeps(sheet, swapped) == sound:
            missed.append((one, other))
    assert tried == 1 + 3 * len(LOADS)  # the battery leads, and three pairs of each load
    assert not missed


@BOTH
def test_bridges_of_neighbours_change_a_reading(choice: Choice) -> None:
    sheet = _sheet(choice)
    wires = meter._wires(sheet)
    sound, graph = meter._beeps(sheet, wires), meter._graph(sheet, wires)
    missed, tried = [], 0
    for key, fitted in sheet.build.parts.items():
        edges = fitted.part.edges
        for row in (edges.front, edges.left, edges.right, edges.rear, edges.under.right):
            for ends in pairwise(f"{key}.{pad}" for pad in row):
                if networkx.has_path(graph, *ends):
                    continue
                tried += 1
                if meter._beeps(sheet, [*wires, ends]) == sound:
                    missed.append(ends)
    assert tried >= 4 * len(LOADS)  # G to V and V to S, at the load and at its board
    assert not missed
