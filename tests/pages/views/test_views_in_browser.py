"""The views of the aircraft as a browser draws them, against the places, sizes and turns that the
build says. The scale is read from the drawn bar, the middle from the drawn motors.
"""

from math import cos, radians, sin
from typing import Any

import pytest

from builder.compute.figures.figure import Figure
from builder.compute.order.work_order import Plan
from builder.model.kinds import Frame, Hardware
from builder.pages.sheet_input import SheetInput
from builder.pages.tables.part_numbers import part_numbers
from builder.pages.views.from_above import view_from_above
from builder.pages.views.from_below import view_from_below
from builder.pages.views.from_side import view_from_side
from builder.pages.views.part_words import part_words
from builder.pipeline.check import Checked
from tests.pages.views.drawn import DEMO, Box, boxes, lying, outside, overlapping_words, show

_NEAR = 1.5  # px: lines have a width, and places are written to a tenth of a millimetre
_BODIES = "path.body, .body > path, path.hidden, .hidden > path, path.phantom, .phantom > path"
_BAR = """() => { const w = [...document.querySelectorAll("text")].find(t => /^\\d+ mm$/.test(t.textContent));
  const b = w.previousElementSibling.getBoundingClientRect();
  return [b.width, parseFloat(w.textContent)]; }"""


def _scale(page: Any) -> float:
    """Pixels a millimetre of the aircraft, by the bar and what is written beside it."""
    pixels, length = page.evaluate(_BAR)
    return float(pixels) / float(length)


def _motors(page: Any) -> dict[str, tuple[float, float]]:
    """Middles of the motors' numbers."""
    found = [b for b in boxes(page, "text") if b["class"].split()[:1] == ["strong"]]
    found = [b for b in found if b["text"] not in ("L", "R")]
    return {b["text"]: ((b["left"] + b["right"]) / 2, (b["top"] + b["bottom"]) / 2) for b in found}


def _frame(sheet: SheetInput) -> dict[str, Any]:
    (frame,) = sheet.build.of_kind(Frame)
    assert frame.part.motors is not None
    return dict(frame.part.motors)


def _sized(sheet: SheetInput) -> list[tuple[str, Any, Any, float]]:
    """Parts and batteries with a place and three lengths: key, place, lengths, degrees."""
    out: list[tuple[str, Any, Any, float]] = []
    for f in sheet.build.parts.values():
        if f.part.KIND in ("frame", "motor", "propeller") or isinstance(f.part, Hardware):
            continue
        size = f.part.size
        if size is None or len(size.along) != 3:
            continue
        yaw = f.use.yaw.value * 57.29577951 if f.use.yaw is not None else 0.0
        for at in f.use.each_at or ([f.use.at] if f.use.at is not None else []):
            out.append((f.key, at, size.along, yaw))
    for k, p in sheet.build.packs.items():
        if p.use.at is not None and p.part.size is not None:
            out.append((k, p.use.at, p.part.size.along, 0.0))
    return out


def _extent(along: Any, yaw: float) -> tuple[float, float]:
    """How long fore and aft, and how wide, a box is that is turned."""
    c, s = abs(cos(radians(yaw))), abs(sin(radians(yaw)))
    return along[0] * c + along[1] * s, along[0] * s + along[1] * c


def _has(found: list[Box], left: float, right: float, top: float, bottom: float) -> bool:
    wanted = {"left": left, "right": right, "top": top, "bottom": bottom}
    return any(all(abs(b[k] - v) < _NEAR for k, v in wanted.items()) for b in found)


def _missing_above(page: Any, sheet: SheetInput, way: int = 1) -> list[str]:
    """What is not drawn where it lies; `way` is -1 where left is drawn right."""
    px = _scale(page) * 1000
    motors = _motors(page)
    places = _frame(sheet)
    k = next(iter(places))
    x0, y0 = motors[k][0] + way * px * places[k].y, motors[k][1] + px * places[k].x
    found = boxes(page, _BODIES)
    out = []
    for key, at, along, yaw in _sized(sheet):
        long, wide = _extent(along, yaw)
        x, y = x0 - way * px * at.y, y0 - px * at.x
        box = (x - px * wide / 2, x + px * wide / 2, y - px * long / 2, y + px * long / 2)
        if not _has(found, *box):
            out.append(key)
    return out


def _motors_stand(page: Any, sheet: SheetInput, *, left_is: int) -> None:
    """What lies further left stands further to one side of the page (1: right), what lies further
    forward stands higher.
    """
    motors, places = _motors(page), _frame(sheet)
    assert set(motors) == set(places)
    for a, at in places.items():
        for b, other in places.items():
            if at.y > other.y:
                assert left_is * (motors[a][0] - motors[b][0]) > 0
            if at.x > other.x:
                assert motors[a][1] < motors[b][1]


@pytest.mark.parametrize("name", DEMO)
def test_seen_from_above_left_is_left_and_all_is_to_scale(
    canvas: Any, demo: Checked, name: str
) -> None:
    sheet = demo.sheets[name]
    drawn = view_from_above(sheet, numbered=True)
    assert drawn is not None
    page = show(canvas, drawn)
    _motors_stand(page, sheet, left_is=-1)
    assert len(_sized(sheet)) > 4
    assert _missing_above(page, sheet) == []


@pytest.mark.parametrize("name", DEMO)
def test_seen_from_below_left_is_drawn_right_and_says_so(
    canvas: Any, demo: Checked, name: str
) -> None:
    sheet = demo.sheets[name]
    drawn = view_from_below(sheet)
    assert drawn is not None
    page = show(canvas, drawn)
    _motors_stand(page, sheet, left_is=1)
    assert _missing_above(page, sheet, -1) == []
    letters = {b["text"]: b["left"] for b in boxes(page, "text") if b["text"] in ("L", "R")}
    motors = _motors(page)
    assert letters["R"] < min(m[0] for m in motors.values())
    assert letters["L"] > max(m[0] for m in motors.values())
    assert any("from below" in b["text"] for b in boxes(page, "text"))
    full = boxes(page, "path.body, .body > path")
    broken = boxes(page, "path.hidden, .hidden > path")
    assert full and len(full) + len(broken) >= len(_sized(sheet)) - len(sheet.build.packs) - 1


@pytest.mark.parametrize("yaw", [30.0, 90.0, 180.0, 270.0])
def test_a_board_that_is_turned_clockwise_is_turned_the_other_way_from_below(
    canvas: Any, demo: Checked, yaw: float
) -> None:
    sheet = lying(demo.sheets["redshank"], esc=(yaw, "up"), controller=(yaw, "down"))
    drawn = view_from_below(sheet)
    assert drawn is not None
    assert _missing_above(show(canvas, drawn), sheet, -1) == []


@pytest.mark.parametrize("yaw", [30.0, 90.0, 180.0, 270.0])
def test_a_turned_board_is_drawn_turned(canvas: Any, demo: Checked, yaw: float) -> None:
    sheet = lying(demo.sheets["redshank"], esc=(yaw, "up"), controller=(yaw, "down"))
    drawn = view_from_above(sheet, numbered=True)
    assert drawn is not None
    page = show(canvas, drawn)
    assert _missing_above(page, sheet) == []
    arrows = [b for b in boxes(page, "path.solid, .solid > path") if b["bottom"] - b["top"] < 12]
    esc = next(s for s in _sized(sheet) if s[0] == "esc")
    px, motors, places = _scale(page) * 1000, _motors(page), _frame(sheet)
    x0, y0 = motors["1"][0] + px * places["1"].y, motors["1"][1] + px * places["1"].x
    ahead = (
        px * esc[2][0] / 4
    )  # the head of the arrow is nearer to the board's front than its middle
    x, y = x0 + ahead * sin(radians(yaw)), y0 - ahead * cos(radians(yaw))
    assert any(
        abs((a["left"] + a["right"]) / 2 - x) < 8 and abs((a["top"] + a["bottom"]) / 2 - y) < 8
        for a in arrows
    )


@pytest.mark.parametrize("name", DEMO)
def test_each_motor_turns_as_the_settings_say(canvas: Any, demo: Checked, name: str) -> None:
    sheet = demo.sheets[name]
    drawn = view_from_above(sheet, numbered=False)
    assert drawn is not None
    page = show(canvas, drawn)
    ends = page.evaluate("""() => [...document.querySelectorAll("path.accent, .accent > path")]
      .filter(p => p.getAttribute("d").includes("A")).map(p => { const m = p.getScreenCTM(),
        at = k => p.getPointAtLength(k).matrixTransform(m), a = at(0), b = at(4);
      return [a.x, a.y, b.x, b.y]; })""")
    motors = _motors(page)
    turns = {m.number: m.turns for m in sheet.results.settings.motors if m.turns}
    assert len(ends) == len(turns) >= 4
    read = {}
    for ax, ay, bx, by in ends:
        number = min(motors, key=lambda k: (motors[k][0] - ax) ** 2 + (motors[k][1] - ay) ** 2)
        mx, my = motors[number]
        cross = (ax - mx) * (by - my) - (ay - my) * (bx - mx)  # y points down: more is clockwise
        read[number] = "clockwise" if cross > 0 else "counter-clockwise"
    assert read == turns


@pytest.mark.parametrize("name", DEMO)
def test_from_the_left_side_the_nose_points_left_and_up_is_up(
    canvas: Any, demo: Checked, name: str
) -> None:
    sheet = demo.sheets[name]
    drawn = view_from_side(sheet)
    assert drawn is not None
    page = show(canvas, drawn)
    px = _scale(page) * 1000
    found = boxes(page, _BODIES)
    sized = _sized(sheet)
    assert len(sized) > 4
    places = _frame(sheet)
    motors = boxes(page, "rect.fill")
    front = max(p.x for p in places.values())
    leftmost = min(motors, key=lambda b: b["left"])
    x0 = (leftmost["left"] + leftmost["right"]) / 2 + px * front
    y0 = leftmost["bottom"] + px * min(p.z for p in places.values())
    missing = []
    for key, at, along, yaw in sized:
        long, _ = _extent(along, yaw)
        x, y = x0 - px * at.x, y0 - px * at.z
        box = (x - px * long / 2, x + px * long / 2, y - px * along[2] / 2, y + px * along[2] / 2)
        if not _has(found, *box):
            missing.append(key)
    assert missing == []


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("name", DEMO)
def test_no_words_of_a_view_overlap_or_leave_it(
    canvas: Any, demo: Checked, name: str, width: int
) -> None:
    sheet = demo.sheets[name]
    words = part_words(sheet, part_numbers(sheet.build))
    for drawn in (
        view_from_above(sheet, numbered=True, words=words),
        view_from_side(sheet, words=words),
        view_from_below(sheet, words=words),
    ):
        assert drawn is not None
        page = show(canvas, drawn, width)
        frame = boxes(page, "svg.drawing")[0]
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        assert outside(boxes(page, "text"), frame) == []
        assert overlapping_words(boxes(page, "text:not(.say)")) == []
        rings = boxes(page, "circle.ring, .ring circle")
        assert len(rings) > 10
        small = [w for w in boxes(page, "text:not(.say)") if w["bottom"] - w["top"] < 11]
        assert small == []


def test_a_part_says_name_weight_and_step_to_the_keyboard(canvas: Any, demo: Checked) -> None:
    sheet = demo.sheets["dipper"]
    numbers = part_numbers(sheet.build)
    drawn = view_from_above(sheet, numbered=True, words=part_words(sheet, numbers))
    assert drawn is not None
    page = show(canvas, drawn)
    shown = "() => [...document.querySelectorAll('.say')].filter(e => getComputedStyle(e).opacity === '1').map(e => e.textContent)"
    assert page.evaluate(shown) == []
    seen = []
    for _ in range(len(numbers)):
        page.keyboard.press("Tab")
        seen += page.evaluate(shown)
    esc = next(s for s in seen if s.startswith(f"{numbers['esc']} "))
    mass = sheet.results.mass
    weight = next(x.each for x in mass.lines if x.key == "esc")
    assert isinstance(weight, Figure)
    assert f"{1000 * weight.value:.1f}" in esc
    plan = sheet.results.order
    assert isinstance(plan, Plan)
    assert f"step {plan.numbers['mount esc']}" in esc


_RUNS = """() => { const p = document.querySelector("path.run"); if (!p) return [];
  const m = p.getScreenCTM(), n = p.getAttribute("d").match(/[MLHVlhv][^MLHVlhv]*/g), out = [];
  let x = 0, y = 0, from = null;
  for (const s of n) { const v = s.slice(1).match(/-?[\\d.]+/g).map(Number), k = s[0].toUpperCase();
    const [a, b] = s[0] === k ? [0, 0] : [x, y];
    if (k === "M" || k === "L") [x, y] = [a + v[0], b + v[1]]; else if (k === "H") x = a + v[0]; else y = b + v[0];
    const at = new DOMPoint(x, y).matrixTransform(m);
    if (k === "M") from = at; else out.push([from.x, from.y, at.x, at.y]); }
  return out; }"""


def _soldered(sheet: SheetInput, key: str, pads: list[str]) -> tuple[float, float]:
    """The middle of contacts of a board in m forward and right, by its turn and face."""
    fitted = sheet.build.parts[key]
    at, size, yaw = fitted.use.at, fitted.part.size, fitted.use.yaw
    assert at is not None and size is not None
    if yaw is None:
        return at.x, -at.y
    spots = []
    for edge in ("front", "right", "rear", "left"):
        row = list(getattr(fitted.part.edges, edge))
        for pad in set(pads) & set(row):
            along = (row.index(pad) + 0.5) / len(row) - 0.5
            fore, right = {
                "front": (0.5, along),
                "rear": (-0.5, along),
                "left": (-along, -0.5),
                "right": (-along, 0.5),
            }[edge]
            right = -right if fitted.use.face == "down" else right
            fore, right = fore * size.along[0], right * size.along[1]
            c, s = cos(yaw.value), sin(yaw.value)
            spots.append((at.x + fore * c - right * s, -at.y + fore * s + right * c))
    assert len(spots) == len(set(pads))
    return sum(p[0] for p in spots) / len(spots), sum(p[1] for p in spots) / len(spots)


@pytest.mark.parametrize("turned", [(0.0, "up"), (90.0, "up"), (180.0, "down"), (30.0, "down")])
def test_bundles_run_from_the_edges_where_they_are_soldered(
    canvas: Any, demo: Checked, turned: tuple[float, str]
) -> None:
    """The wires of each motor end at the motor and at its contacts of the speed controller."""
    sheet = lying(demo.sheets["redshank"], esc=turned)
    words = part_words(sheet, part_numbers(sheet.build))
    for view, way in ((view_from_above, 1), (view_from_below, -1)):
        drawn = view_from_above(sheet, numbered=True, words=words)
        drawn = drawn if view is view_from_above else view_from_below(sheet, words=words)
        assert drawn is not None
        page = show(canvas, drawn)
        px, motors, places = _scale(page) * 1000, _motors(page), _frame(sheet)
        x0, y0 = motors["1"][0] + way * px * places["1"].y, motors["1"][1] + px * places["1"].x
        runs = page.evaluate(_RUNS)
        assert len(runs) >= 9
        for number, (mx, my) in motors.items():
            pads = [
                c.pad
                for j in sheet.results.netlist.joins
                for c, o in ((j.a, j.b), (j.b, j.a))
                if o.part == "motor" and str(o.piece) == number and c.part == "esc"
            ]
            fore, right = _soldered(sheet, "esc", pads)
            wanted = [mx, my, x0 + way * px * right, y0 - px * fore]
            both = (wanted, [*wanted[2:], *wanted[:2]])
            assert any(max(abs(r[i] - w[i]) for i in range(4)) < _NEAR for r in runs for w in both)


_SHOWN = """() => [...document.querySelectorAll(".say")]
  .filter(e => getComputedStyle(e).opacity === "1").map(e => e.textContent)"""
_FOCUSED = f"""() => [...document.querySelectorAll("svg a")].map(a => {{ a.focus();
  const out = [a.querySelector("text").textContent, a.getAttribute("href"), ({_SHOWN})()];
  a.blur(); return out; }})"""


@pytest.mark.parametrize("name", DEMO)
def test_every_part_says_name_weight_and_step_by_pointer_and_keyboard(
    canvas: Any, demo: Checked, name: str
) -> None:
    sheet = demo.sheets[name]
    numbers = part_numbers(sheet.build)
    words = part_words(sheet, numbers)
    by_number = {str(n): key for key, n in numbers.items()}
    for drawn in (
        view_from_above(sheet, numbered=True, words=words, link="parts"),
        view_from_side(sheet, words=words, link="parts"),
        view_from_below(sheet, words=words, link="parts"),
    ):
        assert drawn is not None
        page = show(canvas, drawn)
        told = page.evaluate(_FOCUSED)
        assert len(told) > 8
        assert told == [
            [n, f"parts#part-{n}", [words[by_number[n]]]] for n, _, _ in told if n in by_number
        ]
        first = page.locator("svg a text").first
        first.hover()
        assert page.evaluate(_SHOWN) == [words[by_number[str(first.text_content())]]]
        page.mouse.move(0, 0)
        assert "kg" not in " ".join(words.values())
