"""Words of the drawings measured in a real browser with the fonts of the site: none overlap, none
leave their board.
"""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser
from playwright.sync_api import Page as Tab

from builder.compute.circuit.nets import netlist
from builder.compute.order.work_order import Plan
from builder.pages.drawing import Drawing
from builder.pages.drawings.board_drawing import board_drawing
from builder.pages.drawings.wiring_drawing import wiring_drawing
from builder.pipeline.check import Checked
from builder.render.assets import asset_files
from builder.render.html.svg import svg
from tests.pages.drawings.lines_of_a_drawing import overlapping

DEMO = ("dipper", "dipper-light", "redshank", "curlew", "pipit", "turnstone")
Boxes = list[tuple[str, float, float, float, float]]
# The ink of words, not the line that a font keeps free above and below them (canvas TextMetrics, HTML standard).
_MEASURE = """selector => [...document.querySelectorAll(selector)].map(e => {
  const b = e.getBBox(), m = e.ownerSVGElement.getScreenCTM().inverse().multiply(e.getScreenCTM());
  if (e.localName === "text") {
    const pen = document.createElement("canvas").getContext("2d"), style = getComputedStyle(e);
    const size = parseFloat(style.fontSize), line = e.getStartPositionOfChar(0).y;
    pen.font = `${style.fontStyle} ${style.fontWeight} 100px ${style.fontFamily}`;
    const ink = pen.measureText(e.textContent);
    b.y = line - ink.actualBoundingBoxAscent * size / 100;
    b.height = (ink.actualBoundingBoxAscent + ink.actualBoundingBoxDescent) * size / 100;
  }
  const corner = (x, y) => new DOMPoint(x, y).matrixTransform(m);
  const [p, q] = [corner(b.x, b.y), corner(b.x + b.width, b.y + b.height)];
  return [e.textContent, Math.min(p.x, q.x), Math.min(p.y, q.y), Math.max(p.x, q.x), Math.max(p.y, q.y)];
})"""


@pytest.fixture(scope="module")
def paper(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Tab]:
    """An empty page with the style sheet and the fonts of the site, opened once: a page for each
    drawing starts a process for each.
    """
    folder = tmp_path_factory.mktemp("paper")
    for address, content in asset_files(None).items():
        if address.endswith((".css", ".ttf")):
            (folder / address).parent.mkdir(parents=True, exist_ok=True)
            (folder / address).write_bytes(content)
    head = (
        '<!doctype html><meta charset="utf-8"><title>x</title><link rel="stylesheet"'
        ' href="assets/sheet.css">'
    )
    (folder / "page.html").write_text(f"{head}<figure></figure>", "utf-8")
    page = browser.new_page(viewport={"width": 1280, "height": 900})
    page.goto((folder / "page.html").as_uri())
    loaded = page.evaluate("""async () => {
          await Promise.all(["12px Leaf", "600 12px Leaf", "12px 'Leaf Mono'"].map(f => document.fonts.load(f)));
          return document.fonts.check("12px Leaf") && document.fonts.check("12px 'Leaf Mono'");
        }""")
    assert loaded, "the fonts of the site do not load, so that nothing can be measured"
    yield page
    page.close()


def _measured(paper: Tab, drawing: Drawing, selector: str) -> Boxes:
    """Boxes of the elements that a selector finds, in millimetres of the drawing."""
    paper.evaluate("made => { document.querySelector('figure').innerHTML = made; }", svg(drawing))
    return [(str(b[0]), *map(float, b[1:])) for b in paper.evaluate(_MEASURE, selector)]  # type: ignore[misc]


@pytest.mark.parametrize("name", DEMO)
def test_no_words_overlap(paper: Tab, demo: Checked, name: str) -> None:
    build = demo.workspace.builds[name]
    drawing = wiring_drawing(build, netlist(build))
    words = _measured(paper, drawing, "text")
    assert len(words) > 50
    assert overlapping(words, 0.02) == []


@pytest.mark.parametrize("name", DEMO)
def test_names_of_contacts_stay_inside_their_board(paper: Tab, demo: Checked, name: str) -> None:
    build = demo.workspace.builds[name]
    drawing = wiring_drawing(build, netlist(build))
    boards = _measured(paper, drawing, "rect")
    names = _measured(paper, drawing, "text.mono, text.strong")
    outside = [
        n[0]
        for n in names
        if not any(b[1] < n[1] and b[2] < n[2] and n[3] < b[3] and n[4] < b[4] for b in boards)
    ]
    assert outside == []


@pytest.mark.parametrize("name", ["dipper", "redshank", "pipit"])
def test_no_words_of_boards_overlap(paper: Tab, demo: Checked, name: str) -> None:
    build = demo.workspace.builds[name]
    nets = netlist(build)
    for board in dict.fromkeys(c.board for c in nets.at):
        boxes = _measured(paper, board_drawing(build, nets, board), "text")
        assert boxes
        assert overlapping(boxes, 0.02) == [], board


@pytest.mark.parametrize("name", DEMO)
def test_no_words_of_boards_with_steps_overlap(paper: Tab, demo: Checked, name: str) -> None:
    """As paper draws them where they are soldered: the number of a step at each contact, the longest
    that a sheet may have, and no wider than they need.
    """
    build, plan = demo.workspace.builds[name], demo.sheets[name].results.order
    assert isinstance(plan, Plan)
    nets = netlist(build)
    boards: dict[str, dict[str, str]] = {}
    for joint in (s.joint for s in plan.steps if s.joint is not None):
        boards.setdefault(joint.board, {})[joint.contact.pad] = "104"
    assert len(boards) > 3
    for board, steps in boards.items():
        boxes = _measured(paper, board_drawing(build, nets, board, steps, least=0.0), "text")
        assert boxes
        assert overlapping(boxes, 0.02) == [], board
