"""The picture of each step as a browser draws it: contacts on the side and in the order in which
the board lies, this step's contacts lit in its order, each with its wire's letters and far end.

Where a contact lies is worked out here by coordinates: a board is a square with its arrow up, turned
over about the line from nose to tail where it lies face down, then turned clockwise; seen from below
left and right change places. x points right, y to the tail.
"""

from math import cos, pi, sin
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from builder.compute.circuit.pinout import letters
from builder.compute.order.work_order import Plan
from builder.model.kinds import CombinedBoard, FlightController, SpeedController
from builder.pages.drawing import Again, Drawing
from builder.pages.drawings.wiring_drawing import colour_of
from builder.pages.paper.bench_sheet import bench_sections
from builder.pages.sheet_input import SheetInput
from builder.pages.site.build_page import work_page
from builder.pages.site.site_pages import site_pages
from builder.pages.views.step_picture import StepPictures
from builder.pages.work.plan_items import plan_items
from builder.pipeline.check import Checked
from builder.render.html.page import Renderer, template_texts
from builder.render.html.svg import svg
from tests.pages.views.drawn import DEMO, lay_out_assets, lying, overlapping_words

_READ = """() => [...document.querySelectorAll("svg.drawing")].map(s => {
  const TIP = '[id^="s-t"]:has(.tip)'; // told by test_tip_at_scale.py
  const f = s.getBoundingClientRect();
  const of = e => { const b = e.getBoundingClientRect(); return {
    text: e.textContent, left: b.left - f.left, right: b.right - f.left, top: b.top - f.top,
    bottom: b.bottom - f.top, strong: !!e.closest(".strong"), mono: !!e.closest(".mono"), kept: !!e.closest(`g[id]:not(${TIP})`)}; };
  const spots = p => [...p.getAttribute("d").matchAll(/M([\\d.]+) ([\\d.]+)h0/g)].map(m => {
    const at = new DOMPoint(+m[1], +m[2]).matrixTransform(p.getScreenCTM()); return [at.x - f.left, at.y - f.top]; });
  const board = s.querySelector("use, g[id]"), again = board.matches("use"), rect = s.querySelector("rect");
  return {base: again ? board.getAttribute("href").slice(1) : board.id, again, spots: [...s.querySelectorAll(".spot")].flatMap(spots),
    lit: [...s.querySelectorAll("path.body.lit, .body.lit path")].map(of), width: f.width,
    height: f.height, rect: rect && of(rect), texts: [...s.querySelectorAll("text")].map(of)};
})"""
Point = tuple[float, float]


def _pictures(sheet: SheetInput, *, joints: bool = True) -> list[tuple[Any, Drawing]]:
    """The pictures of steps that solder; all of them unless only `joints` are asked for."""
    plan = sheet.results.order
    assert isinstance(plan, Plan)
    made = StepPictures(sheet)
    found = [(g, made.of(g)) for g in plan.groups]
    shown = [(g, d) for g, d in found if d is not None]
    return [(g, d) for g, d in shown if not joints or any(s.joint for s in g.steps)]


def _read(canvas: Any, drawings: list[Drawing], width: int = 390) -> list[dict[str, Any]]:
    canvas.set_viewport_size({"width": width, "height": 900})
    html = f'<div class="steps">{"".join(str(svg(d)) for d in drawings)}</div>'
    canvas.evaluate("h => { document.querySelector('figure').innerHTML = h; }", html)
    found: list[dict[str, Any]] = canvas.evaluate(_READ)
    return found


def _on_board(edges: Any, under: bool) -> dict[str, Point]:
    sides = edges.under if under else edges
    out: dict[str, Point] = {}
    for edge, fixed in (("left", -1.0), ("right", 1.0), ("front", -1.0), ("rear", 1.0)):
        row = getattr(sides, edge)
        for i, pad in enumerate(row):
            along = -0.5 + (i + 0.5) / len(row)
            out[pad] = (fixed, along) if edge in ("left", "right") else (along, fixed)
    return out


def _expected(sheet: SheetInput, key: str, side: str) -> dict[str, Point]:
    """Where each contact of a side lies before the hand."""
    fitted = sheet.build.parts[key]
    mounted = isinstance(fitted.part, FlightController | SpeedController | CombinedBoard)
    yaw = fitted.use.yaw.value if mounted and fitted.use.yaw is not None else 0.0
    yaw = round(yaw / (pi / 2)) * pi / 2  # one that lies askew is drawn at the nearest quarter
    down = mounted and fitted.use.face == "down"
    below = (side == "under") != down
    out = {}
    for pad, (own, y) in _on_board(fitted.part.edges, side == "under").items():
        x = -own if down else own
        across, rear = x * cos(yaw) - y * sin(yaw), x * sin(yaw) + y * cos(yaw)
        out[pad] = (-across if below else across, rear)
    return out


def _rim(point: Point) -> str:
    if abs(point[0]) > 0.99:
        return "right" if point[0] > 0 else "left"
    return "rear" if point[1] > 0 else "front"


def _drawn_rim(box: dict[str, Any], rect: dict[str, Any]) -> str:
    if box["right"] <= rect["left"]:
        return "left"
    if box["left"] >= rect["right"]:
        return "right"
    return "front" if box["bottom"] <= rect["top"] else "rear"


def _middle(box: dict[str, Any]) -> Point:
    return (box["left"] + box["right"]) / 2, (box["top"] + box["bottom"]) / 2


def _wrong_places(base: dict[str, Any], expected: dict[str, Point]) -> list[str]:
    """Contacts at another rim than they lie at, and neighbours in another order."""
    # contacts of sockets are told by test_board_drawing.py
    names = {t["text"]: t for t in base["texts"] if t["mono"] and t["text"] in expected}
    wrong = [p for p in names if _drawn_rim(names[p], base["rect"]) != _rim(expected[p])]
    for a in names:
        for b in names:
            if _rim(expected[a]) != _rim(expected[b]):
                continue
            axis = 1 if _rim(expected[a]) in ("left", "right") else 0
            ahead = expected[a][axis] < expected[b][axis] - 1e-6
            if ahead and not _middle(names[a])[axis] < _middle(names[b])[axis]:
                wrong.append(f"{a} before {b}")
    return wrong


def _nearest(number: dict[str, Any], base: dict[str, Any]) -> str:
    """The contact in whose row or column a number on the board is, at the rim that it is nearer to."""
    rect = base["rect"]
    names = [t for t in base["texts"] if t["mono"]]

    def away(name: dict[str, Any]) -> float:
        axis = 1 if _drawn_rim(name, rect) in ("left", "right") else 0
        gaps = [number["left"] - name["right"], name["left"] - number["right"]]
        gaps = gaps if axis else [number["top"] - name["bottom"], name["top"] - number["bottom"]]
        return float(3 * abs(_middle(name)[axis] - _middle(number)[axis]) + max(0.0, *gaps))

    return str(min(names, key=away)["text"])


def _check(canvas: Any, sheet: SheetInput) -> int:
    pictures = _pictures(sheet)
    read = _read(canvas, [d for _, d in pictures])
    assert len(read) == len(pictures)
    bases = {r["base"]: r for r in read if not r["again"]}
    for (group, _), shown in zip(pictures, read, strict=True):
        joints = [s.joint for s in group.steps if s.joint is not None]
        base, first = bases[shown["base"]], joints[0]
        expected = _expected(sheet, first.contact.part, first.side)
        assert _wrong_places(base, expected) == [], group.id
        numbers = [t for t in shown["texts"] if t["strong"] and t["text"][:1].isdigit()]
        assert len(numbers) == len(joints), group.id
        below = [t["text"] for t in shown["texts"] if not t["strong"] and not t["mono"]]
        for i, joint in enumerate(joints, 1):
            number = next(t for t in numbers if t["text"].split(" ")[0] == str(i))
            assert _nearest(number, base) == joint.contact.pad, (group.id, number["text"])
            said = " ".join([number["text"], *(t for t in below if t.startswith(f"{i} "))])
            for join, other in zip(joint.wires, joint.others, strict=True):
                assert str(other) in said
                assert letters(colour_of(sheet.build, join)) in said
    return len(pictures)


@pytest.mark.parametrize("name", DEMO)
def test_contacts_lie_as_the_board_does_and_are_lit_in_order(
    canvas: Any, demo: Checked, name: str
) -> None:
    assert _check(canvas, demo.sheets[name]) >= 9


@pytest.mark.parametrize("yaw", [90.0, 180.0, 270.0])
def test_turned_and_upside_down_boards(canvas: Any, demo: Checked, yaw: float) -> None:
    sheet = lying(demo.sheets["redshank"], esc=(yaw, "down"), controller=(yaw, "up"))
    assert _check(canvas, sheet) > 10
    shown = _read(canvas, [d for _, d in _pictures(sheet)])
    mirrored = [r for r in shown if any("mirrored" in t["text"] for t in r["texts"])]
    assert mirrored
    told = [r for r in shown if any("the board's own" in t["text"] for t in r["texts"])]
    assert {r["base"] for r in told} == {"s-esc-top", "s-controller-top"}
    assert [overlapping_words(r["texts"]) for r in told] == [[]] * len(told)
    for picture in mirrored:  # the aircraft's left is drawn right, and both are lettered
        at = {t["text"]: _middle(t)[0] for t in picture["texts"] if t["text"] in ("L", "R")}
        assert at["R"] < _middle(picture["rect"])[0] < at["L"]


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("name", DEMO)
def test_no_words_of_a_picture_overlap_or_leave_it(
    canvas: Any, demo: Checked, name: str, width: int
) -> None:
    pictures = _pictures(demo.sheets[name], joints=False)
    read = _read(canvas, [d for _, d in pictures], width)
    bases = {r["base"]: r for r in read if not r["again"]}
    for (group, _), shown in zip(pictures, read, strict=True):
        kept = [t for t in bases[shown["base"]]["texts"] if t["kept"]]
        words = shown["texts"] + (kept if shown["again"] else [])
        assert overlapping_words(words) == [], group.id
        out = [
            w["text"]
            for w in words
            if w["left"] < -1
            or w["right"] > shown["width"] + 1
            or w["top"] < -1
            or w["bottom"] > shown["height"] + 1
        ]
        assert out == [], group.id


@pytest.mark.parametrize("name", DEMO)
def test_a_board_is_drawn_once_and_a_step_costs_little(demo: Checked, name: str) -> None:
    sheet = demo.sheets[name]
    drawings = [d for _, d in _pictures(sheet, joints=False)]
    kept = [
        i.name for d in drawings for i in d.items if not isinstance(i, Again) and hasattr(i, "name")
    ]
    assert len(kept) == len(set(kept)) >= 4
    plan = sheet.results.order
    assert isinstance(plan, Plan)
    assert sum(len(svg(d)) for d in drawings) / len(plan.groups) <= 600  # bytes


def _drawings_in(thing: Any) -> list[Drawing]:
    if isinstance(thing, Drawing):
        return [thing]
    if isinstance(thing, tuple | list):
        return [d for x in thing for d in _drawings_in(x)]
    fields = getattr(thing, "__dataclass_fields__", {})
    return [d for f in fields for d in _drawings_in(getattr(thing, f))]


@pytest.mark.parametrize("name", DEMO)
def test_nothing_that_is_shown_again_reaches_the_paper(demo: Checked, name: str) -> None:
    """The printer of pages draws nothing for it, and says nothing."""
    sheet = demo.sheets[name]
    printed = _drawings_in(bench_sections(sheet))
    assert printed
    assert not [i for d in printed for i in d.items if isinstance(i, Again)]
    assert all(
        step.drawing is None for step in plan_items(sheet, paper=True) if hasattr(step, "drawing")
    )
    again = next(d for _, d in _pictures(sheet) if isinstance(d.items[0], Again))
    with pytest.raises(ValueError, match="cannot be printed"):
        svg(again, style="svg { }")


@pytest.mark.parametrize("name", ["dipper", "redshank"])
def test_pictures_stand_by_themselves_on_the_page_and_can_be_read(
    browser: Browser, tmp_path: Path, demo: Checked, name: str
) -> None:
    lay_out_assets(tmp_path)
    made = Renderer(template_texts(None)).page(
        work_page(demo.sheets[name]), site_pages(demo.workspace.site)
    )
    (tmp_path / name / "work").mkdir(parents=True)
    (tmp_path / name / "work/index.html").write_bytes(made)
    page = browser.new_page(viewport={"width": 390, "height": 844})
    page.goto((tmp_path / name / "work/index.html").as_uri())
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    assert page.locator(".steps p svg.drawing").count() == 0
    sizes = page.evaluate("""() => [...document.querySelectorAll(".steps svg.drawing text")].map(t => {
      const style = getComputedStyle(t), m = t.getScreenCTM();
      return [parseFloat(style.fontSize) * Math.hypot(m.a, m.b), style.fontStyle]; })""")
    assert len(sizes) > 100
    assert min(size for size, _ in sizes) > 10.5  # px
    assert {style for _, style in sizes} == {"normal"}
    page.close()
