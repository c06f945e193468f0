"""A board with every wire that leaves it, as a browser draws it: each wire at its contact, contacts on
the side and in the order in which the board lies; a wire or contact marks its net and leads to its
step.
"""

from typing import Any

import pytest

from builder.compute.circuit.pinout import letters
from builder.model.build import Contact
from builder.pages.drawing import Drawing
from builder.pages.drawings.wiring_drawing import colour_of
from builder.pages.sheet_input import SheetInput
from builder.pages.views.board_wires import board_wires
from builder.pages.views.wire_ends import wire_ends
from builder.pages.work.net_marks import wire_leads
from builder.pipeline.check import Checked
from tests.pages.views.drawn import DEMO, boxes, lying, outside, overlapping_words, show
from tests.pages.views.test_step_pictures import Point, _expected, _middle, _rim

_LINE = 1.5  # px that line boxes of words beside each other may share: their letters are lower
_WIRES = """() => [...document.querySelectorAll(".net a")].map(a => {
  const box = e => { const b = e.getBoundingClientRect();
    return {text: e.textContent, left: b.left, right: b.right, top: b.top, bottom: b.bottom}; };
  return {words: a.textContent, link: a.getAttribute("href"), texts: [...a.querySelectorAll("text")].map(box),
          wire: box(a.querySelector("path")), net: [...document.querySelectorAll(".net")].indexOf(a.parentNode)}; })"""
_MARKED = """() => [...document.querySelectorAll(".net a")]
  .filter(a => /underline/.test(getComputedStyle(a.querySelector("text")).textDecorationLine))
  .map(a => a.textContent)"""


def _drawings(sheet: SheetInput) -> dict[str, Drawing]:
    """The drawing of each piece with a contact that is wired."""
    ends = wire_ends(sheet.build, sheet.results.netlist, wire_leads(sheet))
    pieces = dict.fromkeys((c.board, c.part) for c in ends)
    parts = sheet.build.parts
    found = {board: board_wires(sheet.build, board, parts[key], ends) for board, key in pieces}
    return {board: drawn for board, drawn in found.items() if drawn is not None}


def _rim_of(wire: dict[str, Any], boards: list[dict[str, Any]]) -> tuple[str, dict[str, Any]]:
    """The edge of a board that a wire leaves, and that board."""
    x, y = _middle(wire)
    for rect in boards:
        beside = rect["top"] - 1 < y < rect["bottom"] + 1
        over = rect["left"] - 1 < x < rect["right"] + 1
        if beside and not over and min(abs(x - rect["left"]), abs(x - rect["right"])) < 30:
            return ("left" if x < rect["left"] else "right"), rect
        if over and not beside and min(abs(y - rect["top"]), abs(y - rect["bottom"])) < 30:
            return ("front" if y < rect["top"] else "rear"), rect
    raise AssertionError(wire["text"])


def _out_of_order(spots: dict[str, Point], side: dict[str, Point]) -> list[str]:
    """Contacts of a side that stand in another order than they lie."""
    out = []
    for a in spots.keys() & side.keys():
        for b in spots.keys() & side.keys():
            axis = 1 if _rim(side[a]) in ("left", "right") else 0
            ahead = _rim(side[a]) == _rim(side[b]) and side[a][axis] < side[b][axis] - 1e-6
            if ahead and not spots[a][axis] < spots[b][axis]:
                out.append(f"{a} before {b}")
    return out


def _not_there(sheet: SheetInput, board: str, seen: set[tuple[str, str]]) -> list[str]:
    """Wires of a board that no words at their contact tell, with their letters."""
    nets = sheet.results.netlist
    out = []
    for contact in [c for c in nets.at if c.board == board]:
        for join in nets.at[contact]:
            other = join.b if join.a == contact else join.a
            wanted = letters(colour_of(sheet.build, join))
            told = [w for p, w in seen if p == contact.pad and f" {other} " in f" {w} "]
            if not any(wanted in w.split(" ") or not wanted for w in told):
                out.append(f"{contact} to {other} is not there")
    return out


def _wrong(page: Any, sheet: SheetInput, board: str) -> list[str]:
    """Wires that are not where they belong, or missing."""
    nets = sheet.results.netlist
    own = [c for c in nets.at if c.board == board]
    rects = boxes(page, "rect.fill")
    wires = page.evaluate(_WIRES)
    key = own[0].part
    pads = sheet.build.parts[key].part.pads
    sides = {s: _expected(sheet, key, s) for s in ("top", "under")}
    placed = {p: at for side in sides.values() for p, at in side.items()}
    out: list[str] = []
    seen: set[tuple[str, str]] = set()
    spots: dict[str, Point] = {}
    pad = ""
    for wire in wires:
        names = [t["text"] for t in wire["texts"]]
        if len(names) == 2:  # the first wire of a contact has the contact's name
            pad = names[0]
        assert pad in pads
        seen.add((pad, names[-1]))
        if pad not in placed:
            continue
        rim, rect = _rim_of(wire["wire"], rects)
        spots[pad] = _middle(wire["wire"])
        if rim != _rim(placed[pad]):
            out.append(f"{pad} at the {rim}")
        name = wire["texts"][0]
        inside = rect["left"] < _middle(name)[0] < rect["right"]
        inside &= rect["top"] < _middle(name)[1] < rect["bottom"]
        if len(names) == 2 and not inside:
            out.append(f"{pad} is named outside")
    out += [o for side in sides.values() for o in _out_of_order(spots, side)]
    return out + _not_there(sheet, board, seen)


@pytest.mark.parametrize("name", DEMO)
def test_every_wire_leaves_its_board_where_it_is_soldered(
    canvas: Any, demo: Checked, name: str
) -> None:
    sheet = demo.sheets[name]
    drawings = _drawings(sheet)
    assert len(drawings) >= 5
    wrong = {b: _wrong(show(canvas, d), sheet, b) for b, d in drawings.items()}
    assert {b: w for b, w in wrong.items() if w} == {}


@pytest.mark.parametrize("yaw", [0.0, 90.0, 180.0, 270.0])
def test_boards_that_are_turned_and_upside_down(canvas: Any, demo: Checked, yaw: float) -> None:
    sheet = lying(demo.sheets["redshank"], esc=(yaw, "down"), controller=(yaw, "up"))
    drawings = _drawings(sheet)
    for board in ("esc", "controller"):
        assert _wrong(show(canvas, drawings[board]), sheet, board) == []
    words = boxes(show(canvas, drawings["esc"]), "text")
    assert any("from below, nose up, mirrored" in w["text"] for w in words)
    at = {w["text"]: _middle(w)[0] for w in words if w["text"] in ("L", "R")}
    assert at["R"] < at["L"]
    assert overlapping_words(words, _LINE) == []


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("name", DEMO)
def test_words_stay_apart_and_can_be_read(
    canvas: Any, demo: Checked, name: str, width: int
) -> None:
    for board, drawn in _drawings(demo.sheets[name]).items():
        page = show(canvas, drawn, width)
        (frame,) = boxes(page, "svg")
        words = boxes(page, "text")
        assert overlapping_words(words, _LINE) == [], board
        assert outside(words, frame) == [], board
        assert 3.1 * 356 / drawn.width > 10.5, board  # px of type on a page that is 390 wide


def test_a_wire_or_contact_marks_its_net_and_leads_to_its_step(canvas: Any, demo: Checked) -> None:
    sheet = demo.sheets["redshank"]
    nets = sheet.results.netlist
    page = show(canvas, _drawings(sheet)["controller"])
    assert page.evaluate(_MARKED) == []
    links = page.locator(".net a")
    grounds = [c.pad for c in nets.at if c.board == "controller" and "GND" in c.pad]
    tried = 0
    for i in range(links.count()):
        pad = links.nth(i).locator("text").first.text_content()
        if pad not in grounds:
            continue
        links.nth(i).focus()
        marked = {m.split(" ")[0] for m in page.evaluate(_MARKED)}
        of_net = {
            c.pad
            for c in nets.at
            if c.board == "controller" and nets.joined(c, Contact("controller", 0, pad))
        }
        assert marked == of_net
        page.evaluate("document.activeElement.blur()")
        links.nth(i).locator("text").first.hover()  # the contact's name, by pointer
        assert {m.split(" ")[0] for m in page.evaluate(_MARKED)} == of_net
        page.mouse.move(0, 0)
        tried += 1
    assert tried >= 3
    step = links.filter(has_text="GND3").first
    assert str(step.get_attribute("href")).endswith("#step-solder-camera-at-controller")
