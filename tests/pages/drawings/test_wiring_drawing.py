"""The wiring drawing read back: nothing hidden, nothing left out, crossings counted a second time
by other means.
"""

import re
from collections import Counter

import pytest
from hypothesis import HealthCheck, given, settings

from builder.compute.circuit.nets import Netlist, netlist
from builder.model.build import Build
from builder.pages.drawing import Drawing
from builder.pages.drawings.wiring_drawing import wiring_drawing
from builder.pipeline.check import Checked
from builder.render.html.svg import svg
from tests.pages.drawings.lines_of_a_drawing import (
    along_each_other,
    boards,
    count_crossings,
    dots,
    overlapping,
    through_boards,
    wires,
    words,
)
from tests.pages.drawings.random_wirings import wirings

pytestmark = pytest.mark.slow  # draws at random again and again

DEMO = ("dipper", "dipper-light", "redshank", "curlew", "pipit", "turnstone")


@pytest.fixture(params=DEMO)
def drawn(request: pytest.FixtureRequest, demo: Checked) -> tuple[Build, Netlist, Drawing]:
    build = demo.workspace.builds[request.param]
    nets = netlist(build)
    return build, nets, wiring_drawing(build, nets)


def _reported(drawing: Drawing) -> int:
    found = re.match(r"(\d+) crossings?$", drawing.notes[0])
    assert found, drawing.notes
    return int(found[1])


def _pairs(nets: Netlist) -> Counter[tuple[str, str]]:
    return Counter((str(j.a), str(j.b)) for j in nets.joins if j.by != "inside")


def _drawn_pairs(drawing: Drawing) -> Counter[tuple[str, str]]:
    found = [re.match(r"[^:]+: (\S+) to ([^\s,]+)", w.title) for w in wires(drawing)]
    return Counter((m[1], m[2]) for m in found if m)


def _holds(nets: Netlist, drawing: Drawing) -> None:
    """What must hold for every wiring."""
    assert _drawn_pairs(drawing) == _pairs(nets)
    assert _reported(drawing) == count_crossings(drawing)
    assert list(through_boards(drawing)) == []
    assert list(along_each_other(drawing)) == []
    rims = {(c.x, c.y) for c in dots(drawing)}
    for wire in wires(drawing):
        assert wire.points[0] in rims, f"{wire.title} starts at no contact"
        assert wire.points[-1] in rims, f"{wire.title} ends at no contact"
        assert all(
            x0 == x1 or y0 == y1
            for (x0, y0), (x1, y1) in zip(wire.points, wire.points[1:], strict=False)
        )
    ends = Counter(p for w in wires(drawing) for p in (w.points[0], w.points[-1]))
    assert set(ends.values()) <= {1}, "two wires end at one dot"
    assert (
        overlapping([(b.title, b.x, b.y, b.x + b.width, b.y + b.height) for b in boards(drawing)])
        == []
    )
    places = [(c.x, c.y) for c in dots(drawing)] + [(w.x, w.y) for w in words(drawing)]
    places += [point for w in wires(drawing) for point in w.points]
    assert all(0 <= x <= drawing.width and 0 <= y <= drawing.height for x, y in places)


def test_demo_wirings(drawn: tuple[Build, Netlist, Drawing]) -> None:
    _, nets, drawing = drawn
    _holds(nets, drawing)


@settings(
    max_examples=40,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
@given(wirings())
def test_random_wirings(build: Build) -> None:
    nets = netlist(build)
    _holds(nets, wiring_drawing(build, nets))


def test_every_wire_is_named_at_both_ends(drawn: tuple[Build, Netlist, Drawing]) -> None:
    """Number and colour letters stand above both ends, right beside the contact: never colour
    alone.
    """
    _, _, drawing = drawn
    labels = [w for w in words(drawing) if re.fullmatch(r"\d+( [A-Z]{2,4})?", w.text)]
    for wire in wires(drawing):
        label = wire.title.split(":")[0]
        near = [
            w
            for w in labels
            for x, y in (wire.points[0], wire.points[-1])
            if w.text == label and abs(w.x - x) < 2 and 0 < y - w.y < 1
        ]
        assert len(near) == 2, wire.title
        if wire.colour in ("red", "black"):  # IEC 60757: RD red, BK black
            assert label.endswith({"red": "RD", "black": "BK"}[wire.colour])


def test_every_contact_of_a_wired_board_is_shown(drawn: tuple[Build, Netlist, Drawing]) -> None:
    """Free contacts too, for people count pads along an edge."""
    build, nets, drawing = drawn
    shown = Counter(w.text for w in words(drawing) if w.tone.startswith("mono"))
    touched = {(c.part, c.piece) for c in nets.at}
    assert shown == Counter(c.pad for c in build.contacts if (c.part, c.piece) in touched)


def test_contacts_stand_in_the_order_of_the_edge(demo: Checked) -> None:
    """Beside an arrow that points up, the left edge reads downward on the left, as its maker lists
    it.
    """
    build = demo.workspace.builds["dipper"]
    drawing = wiring_drawing(build, netlist(build))
    board = build.parts["controller"].part
    boxes = {b.title: b for b in boards(drawing)}
    box = boxes[board.name]
    inside = {
        w.text: w
        for w in words(drawing)
        if box.x < w.x < box.x + box.width and box.y < w.y < box.y + box.height
    }
    left = [inside[p] for p in board.edges.left]
    right = [inside[p] for p in board.edges.right]
    assert all(w.anchor == left[0].anchor != right[0].anchor for w in left)
    heights = [[w.y for w in side] for side in (left, right)]
    assert heights[0] == sorted(heights[0], reverse=heights[0][0] > heights[0][-1])
    assert heights[1] == sorted(heights[1], reverse=heights[0][0] > heights[0][-1]), (
        "both sides are turned together"
    )
    assert (left[0].x < right[0].x) == (heights[0][0] < heights[0][-1]), (
        "a board may be turned, never mirrored"
    )


def test_a_reversed_harness_needs_no_crossing_and_a_straight_one_does(demo: Checked) -> None:
    """Two sockets whose contacts run the same way round: eight straight wires that pass one side of
    the boards cross n(n-1)/2 times in a plane; those that pass the other side do so among
    themselves. Four and four are the fewest.
    """
    found = {}
    for name in ("redshank", "dipper"):
        build = demo.workspace.builds[name]
        drawing = wiring_drawing(build, netlist(build))
        within = re.match(r"(\d+) of them between wires of one plug", " ".join(drawing.notes[1:]))
        found[name] = int(within[1]) if within else 0
    assert found["redshank"] == 0
    assert 2 * (4 * 3 // 2) <= found["dipper"] <= 8 * 7 // 2


def test_the_same_build_gives_the_same_bytes(drawn: tuple[Build, Netlist, Drawing]) -> None:
    build, _, drawing = drawn
    assert svg(drawing) == svg(wiring_drawing(build, netlist(build)))
