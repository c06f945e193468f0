"""Boards stand in the wiring drawing as they are mounted, read back from where their contacts and
arrows are drawn.

Where a contact lies in the aircraft is worked out here by coordinates: a board is a square with its
arrow up, turned over about the line from nose to tail where it lies face down, then turned
clockwise; x points right, y to the tail.
"""

import re
from math import atan2, cos, degrees, radians, sin
from random import Random
from typing import Any

import pytest
import yaml

from builder.compute.circuit.nets import netlist
from builder.model.build import Build
from builder.pages.drawing import Circle, Drawing, Rectangle, Shape, Words
from builder.pages.drawings.wiring_drawing import drawings_of, wiring_drawing
from builder.pipeline.check import Checked
from tests.compute.small_workspace import FRAME, one_build
from tests.pages.drawings.lines_of_a_drawing import boards, dots, words

DEMO = ("dipper", "dipper-light", "redshank", "curlew", "pipit", "turnstone")
Point = tuple[float, float]


def _in_aircraft(point: Point, yaw: float, face: str) -> Point:
    x, y = (-point[0] if face == "down" else point[0]), point[1]
    turn = radians(yaw)
    return x * cos(turn) - y * sin(turn), x * sin(turn) + y * cos(turn)


def _on_board(edges: Any) -> dict[str, Point]:
    """Each pad of an edge on the rim of a square from -1 to 1, arrow up, by the words of the part
    reference.
    """
    out: dict[str, Point] = {}
    for sides in (edges.under, edges):
        for edge, fixed in (("left", -1.0), ("right", 1.0), ("front", -1.0), ("rear", 1.0)):
            row = getattr(sides, edge)
            for i, pad in enumerate(row):
                along = -0.9 + 1.8 * (i + 0.5) / len(row)
                out[pad] = (fixed, along) if edge in ("left", "right") else (along, fixed)
    return out


def _box(drawing: Drawing, name: str) -> Rectangle:
    title = next(w for w in words(drawing) if w.text == name and w.tone == "strong")
    return next(
        b
        for b in boards(drawing)
        if b.x < title.x < b.x + b.width and b.y < title.y < b.y + b.height
    )


def _inside(drawing: Drawing, box: Rectangle) -> dict[str, Words]:
    found = [w for w in words(drawing) if w.tone.startswith("mono")]
    return {
        w.text: w
        for w in found
        if box.x < w.x < box.x + box.width and box.y < w.y < box.y + box.height
    }


def _check(build: Build, drawing: Drawing, key: str, board: str, yaw: float, face: str) -> int:
    """Sides, and the order down each side, of one board; how many contacts were looked at."""
    box = _box(drawing, board)
    shown = _inside(drawing, box)
    middle = box.x + box.width / 2
    places = {
        p: _in_aircraft(q, yaw, face)
        for p, q in _on_board(build.parts[key].part.edges).items()
        if p in shown
    }
    left, right = ({p: q for p, q in places.items() if way * q[0] > 0.95} for way in (-1, 1))
    assert all(shown[p].x < middle for p in left), (board, yaw, face)
    assert all(shown[p].x > middle for p in right), (board, yaw, face)
    faces = [
        {p: q for p, q in side.items() if p.startswith(("U", "V")) == low}
        for side in (left, right)
        for low in (0, 1)
    ]
    for side in faces:  # the two faces of an edge stand one below the other
        by_picture = sorted(side, key=lambda p: shown[p].y)
        heights = [side[p][1] for p in by_picture]
        assert heights == sorted(heights), (board, yaw, face)
    ends = {p: q for p, q in places.items() if abs(q[1]) > 0.95}
    for (
        p,
        q,
    ) in ends.items():  # front and rear contacts go to either side, never crossing over each other
        for other, r in ends.items():
            if (
                q[1] * r[1] > 0
                and q[0] < r[0]
                and p.startswith(("U", "V")) == other.startswith(("U", "V"))
            ):
                assert not (shown[p].x > middle > shown[other].x), (board, p, other)
    return len(places)


def _arrow_turn(drawing: Drawing, box: Rectangle) -> float:
    """The way that the arrow in a box points, in degrees clockwise from up, by the corners of its
    head.
    """
    heads = [i for i in drawing.items if isinstance(i, Shape) and i.tone == "solid"]
    for head in heads:
        n = [float(v) for v in re.findall(r"-?\d+(?:\.\d+)?", head.path)]
        tip, base = (n[0], n[1]), ((n[2] + n[4]) / 2, (n[3] + n[5]) / 2)
        if box.x < tip[0] < box.x + box.width and box.y < tip[1] < box.y + box.height:
            return degrees(atan2(tip[0] - base[0], base[1] - tip[1])) % 360
    raise AssertionError("no arrow")


@pytest.mark.parametrize("name", DEMO)
def test_demo_boards_and_motors(demo: Checked, name: str) -> None:
    build = demo.workspace.builds[name]
    drawing = wiring_drawing(build, netlist(build))
    looked = 0
    for key, fitted in build.parts.items():
        if fitted.part.KIND in ("flight-controller", "speed-controller", "combined-board"):
            yaw = fitted.use.yaw
            assert yaw is not None
            looked += _check(build, drawing, key, key, degrees(yaw.value), fitted.use.face)
            assert abs((_arrow_turn(drawing, _box(drawing, key)) + 180) % 360 - 180) < 1
    assert looked > 10
    _motors_at_their_sides(build, drawing)


def _motors_at_their_sides(build: Build, drawing: Drawing) -> None:
    """Left of the boards what is left in the aircraft, front above rear: by the frame's own places
    of the motors.
    """
    plan = build.source.setup.rotation
    assert plan is not None
    middle = _box(drawing, "controller" if "controller" in build.parts else "board")
    boxes = {n: _box(drawing, f"motor.{n}") for n in plan.corners}
    for n, corner in plan.corners.items():
        assert (boxes[n].x + boxes[n].width < middle.x) == ("left" in corner), n
        assert (boxes[n].x > middle.x + middle.width) == ("right" in corner), n
        for other, there in plan.corners.items():
            if corner.startswith("front") and there == corner.replace("front", "rear"):
                assert boxes[n].y < boxes[other].y


PADS = ("L1", "L2", "L3", "R1", "R2", "F1", "F2", "F3", "B1", "B2", "B3", "B4", "U1", "V1")
SHELF = (
    FRAME
    + """
board:
  kind: flight-controller
  name: Made up board
  arrow: forward
  edges: {left: [L1, L2, L3], right: [R1, R2], front: [F1, F2, F3], rear: [B1, B2, B3, B4], under: {left: [U1], rear: [V1]}}
  pads: {PADS}
motor: {kind: motor, name: Motor, pads: {A: {role: phase}, B: {role: phase}, C: {role: phase}}}
camera: {kind: camera, name: Camera, pads: {G: {role: ground}, V: {role: draws}, S: {role: video-out}}}
""".replace("PADS", ", ".join(f"{p}: {{role: sense}}" for p in PADS))
)
CORNERS = ("front left", "front right", "rear right", "rear left")


def _made(yaw: str | None, face: str, seed: int) -> Build:
    """A board with wires to four motors and a camera from all its edges, in an order that the seed
    shuffles.
    """
    pads = list(PADS)
    Random(seed).shuffle(pads)
    ends = [f"motor.{m}.{x}" for m in range(1, 5) for x in "ABC"] + ["camera.G", "camera.V"]
    use: dict[str, str] = {"use": "board", "face": face, **({"yaw": yaw} if yaw else {})}
    build = {
        "title": "T",
        "parts": {
            "frame": "frame",
            "board": use,
            "motor": {"use": "motor", "count": "4"},
            "camera": "camera",
        },
        "wires": [{"from": a, "to": f"board.{b}"} for a, b in zip(ends, pads, strict=True)],
        "setup": {"rotation": {"corners": {str(n): c for n, c in enumerate(CORNERS, 1)}}},
    }
    return one_build(SHELF, yaml.safe_dump(build))


@pytest.mark.parametrize("face", ["up", "down"])
@pytest.mark.parametrize("yaw", [0, 90, 180, 270])
def test_boards_turned_and_turned_over(yaw: int, face: str) -> None:
    for seed in range(6):
        build = _made(f"{yaw} deg", face, seed)
        drawing = wiring_drawing(build, netlist(build))
        assert _check(build, drawing, "board", "board", yaw, face) == 14
        box = _box(drawing, "board")
        assert abs((_arrow_turn(drawing, box) - yaw + 180) % 360 - 180) < 1
        _motors_at_their_sides(build, drawing)
        told = " ".join(w.text for w in words(drawing))
        assert (f"turned {yaw}° clockwise" in told) == (yaw != 0)
        assert ("face down, seen through: mirrored" in told) == (face == "down")


def test_a_turned_board_names_its_own_edges() -> None:
    """As the pinout calls them, so that nobody takes the right of the paper for the board's right
    edge.
    """
    drawing = wiring_drawing(build := _made("90 deg", "up", 1), netlist(build))
    box = _box(drawing, "board")
    small = [
        w
        for w in words(drawing)
        if w.text in ("left edge", "right edge", "front edge", "rear edge")
    ]
    assert len([w for w in small if box.x < w.x < box.x + box.width]) == 12, (
        "all but those of the underside"
    )


def test_a_direction_that_nobody_says_is_said() -> None:
    build = _made(None, "up", 2)
    drawing = wiring_drawing(build, netlist(build))
    assert any(w.text == "direction not known: drawn arrow up" for w in words(drawing))
    assert _check(build, drawing, "board", "board", 0, "up") == 14


@pytest.mark.parametrize("yaw", ["0 deg", "90 deg", "270 deg", None])
def test_words_stay_inside_their_board(yaw: str | None) -> None:
    for face in ("up", "down"):
        build = _made(yaw, face, 3)
        drawing = wiring_drawing(build, netlist(build))
        box = _box(drawing, "board")
        lines = sorted(w.y for w in _inside(drawing, box).values())
        notes = [w for w in words(drawing) if w.anchor == "middle" and w.tone == "soft"]
        assert all(w.y < lines[0] - 1.5 for w in notes), "the note stands above the first contact"
        assert all(0.62 * w.size * len(w.text) <= box.width for w in notes)


def test_the_caption_says_what_is_drawn_as_mounted(demo: Checked) -> None:
    build = demo.workspace.builds["redshank"]
    (block,) = drawings_of(build, netlist(build))
    assert "drawn as they are mounted, seen from above with the nose up" in getattr(
        block, "caption", ""
    )
    assert isinstance(dots(wiring_drawing(build, netlist(build)))[0], Circle)
