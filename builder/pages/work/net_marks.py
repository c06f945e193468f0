"""The wiring drawing for a screen: a wire marks all wires of its net while it is pointed to or has the
keyboard, says from where to where it goes, and leads to the step that solders it.
"""

from dataclasses import replace

from builder.compute.circuit.contacts import Join
from builder.compute.order.work_order import Cycle
from builder.model.build import Contact
from builder.pages.blocks import Block, Illustration
from builder.pages.drawing import Drawing, Item, Line, Marked, MarkedTogether
from builder.pages.drawings.text_size import words_width
from builder.pages.drawings.wiring_drawing import wire_titles
from builder.pages.page_map import address_of
from builder.pages.sheet_input import SheetInput
from builder.pages.views.wire_ends import FindsLead, Lead
from builder.pages.work.step_anchors import step_anchors

_TYPE = 3.1  # mm


def _steps_of(sheet: SheetInput) -> dict[Contact, tuple[str, str]]:
    """The number and the anchor of the step that solders each contact."""
    plan = sheet.results.order
    if isinstance(plan, Cycle):
        return {}
    anchors = step_anchors(plan)
    out: dict[Contact, tuple[str, str]] = {}
    for group in plan.groups:
        for step in group.steps:
            if step.joint is not None:
                number = str(plan.numbers[group.steps[0].id])
                out.setdefault(step.joint.contact, (number, anchors[group.id]))
    return out


def _said(
    sheet: SheetInput, title: str, join: Join, steps: dict[Contact, tuple[str, str]]
) -> tuple[str, str]:
    """The words of a wire and where it leads: to the later of the steps at its ends, where it is
    done; to the order of work, where no step solders it.
    """
    build = sheet.build.name
    found = [steps[c] for c in (join.a, join.b) if c in steps]
    if not found:
        return title, address_of(build, "order")
    number, anchor = max(found, key=lambda f: int(f[0]))
    return f"{title}; step {number}", address_of(build, anchor)


def wire_leads(sheet: SheetInput) -> FindsLead:
    """Where a wire leads that ends at a contact: to the step that solders it there, else to the one
    at its other end, else to the order of work.
    """
    steps, build = _steps_of(sheet), sheet.build.name

    def found(own: Contact, join: Join) -> Lead:
        known = [steps[c] for c in (own, join.a, join.b) if c in steps]
        if not known:
            return Lead(address_of(build, "order"), "")
        number, anchor = known[0]
        return Lead(address_of(build, anchor), number)

    return found


def _place(line: Line, words: str, width: float) -> tuple[float, float]:
    """Over the middle of a wire, within the drawing."""
    middle = line.points[len(line.points) // 2]
    wide = words_width(words, _TYPE)
    x, y = min(middle[0] - wide / 2, width - wide - 1.0), middle[1] - 1.5
    return float(max(1, round(x))), float(max(4, round(y)))


def with_marked_nets(sheet: SheetInput, drawing: Drawing) -> Drawing:
    """The drawing with its nets marked; what its wires said as titles they say there."""
    joins = wire_titles(sheet.build, sheet.results.netlist)
    steps, nets = _steps_of(sheet), sheet.results.netlist
    groups: dict[str, list[Marked]] = {}
    items: list[Item] = []
    for item in drawing.items:
        if not isinstance(item, Line) or item.title not in joins:
            items.append(item)
            continue
        join = joins[item.title]
        words, link = _said(sheet, item.title, join, steps)
        at = _place(item, words, drawing.width)
        mark = Marked((Line(item.points),), link, words, *at)
        groups.setdefault(nets.of[join.a].name, []).append(mark)
        items.append(replace(item, title=""))
    marks = [MarkedTogether(tuple(found)) for found in groups.values()]
    return replace(drawing, items=(*items, *marks))


def marked_drawings(sheet: SheetInput, blocks: list[Block]) -> list[Block]:
    """The same blocks, their drawings with marked nets."""
    return [
        replace(b, drawing=with_marked_nets(sheet, b.drawing), caption=_caption(b.caption))
        if isinstance(b, Illustration)
        else b
        for b in blocks
    ]


def _caption(words: str) -> str:
    more = "Point to a wire, or reach it by keyboard, to see its net; it leads to its step."
    return f"{words} {more}"
