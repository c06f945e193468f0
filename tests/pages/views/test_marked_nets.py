"""A wire of the wiring drawing marks its net, by pointer and by keyboard, and leads to its step."""

from typing import Any

import pytest

from builder.compute.order.work_order import Plan
from builder.pages.blocks import Illustration
from builder.pages.drawing import Drawing, MarkedTogether
from builder.pages.drawings.wiring_drawing import wire_titles
from builder.pages.paper.bench_sheet import bench_sections
from builder.pages.sections.wiring import wiring
from builder.pages.sheet_input import SheetInput
from builder.pages.work.step_anchors import step_anchors
from builder.pipeline.check import Checked
from builder.render.html.svg import svg
from tests.pages.views.drawn import show

_MARKED = """() => [...document.querySelectorAll(".net path")]
  .filter(p => !/transparent|rgba\\(0, 0, 0, 0\\)/.test(getComputedStyle(p).stroke))
  .map(p => p.closest("a").querySelector(".say").textContent)"""


def _drawing(sheet: SheetInput) -> Drawing:
    return next(
        b.drawing
        for b in wiring(sheet).blocks
        if isinstance(b, Illustration) and b.anchor == "wiring-drawing"
    )


def _of_net(sheet: SheetInput, start: str) -> set[str]:
    """Titles of all wires on the net of the wire whose title begins so."""
    titles = wire_titles(sheet.build, sheet.results.netlist)
    join = next(j for t, j in titles.items() if t.startswith(start))
    nets = sheet.results.netlist
    return {t for t, j in titles.items() if nets.joined(j.a, join.a)}


@pytest.mark.parametrize("name", ["dipper", "redshank"])
def test_a_wire_marks_its_net_and_leads_to_its_step(canvas: Any, demo: Checked, name: str) -> None:
    sheet = demo.sheets[name]
    page = show(canvas, _drawing(sheet), 1280)
    assert page.evaluate(_MARKED) == []
    titles = wire_titles(sheet.build, sheet.results.netlist)
    plan = sheet.results.order
    assert isinstance(plan, Plan)
    anchors = step_anchors(plan)
    soldering = {
        anchors[g.id]: {str(s.joint.contact) for s in g.steps if s.joint is not None}
        for g in plan.groups
    }
    links = page.locator(".net a")
    assert links.count() == len(titles)
    tried = 0
    for i in range(0, links.count(), 5):
        links.nth(i).focus()
        marked = page.evaluate(_MARKED)
        own = links.nth(i).text_content().split("; step ")[0]
        assert {m.split("; step ")[0] for m in marked} == _of_net(sheet, own)
        anchor = str(links.nth(i).get_attribute("href")).partition("#")[2]
        join = titles[own]
        if soldering.get(anchor):
            assert soldering[anchor] & {str(join.a), str(join.b)}
            tried += 1
        page.evaluate("document.activeElement.blur()")
    assert tried >= 5
    page.mouse.move(0, 0)


def test_paper_has_no_marks(demo: Checked) -> None:
    sheet = demo.sheets["dipper"]
    drawing = _drawing(sheet)
    assert any(isinstance(i, MarkedTogether) for i in drawing.items)
    assert "net" not in str(svg(drawing, style="svg { }")).split("class=")[0]
    assert 'class="net"' not in str(svg(drawing, style="svg { }"))
    assert bench_sections(sheet)
