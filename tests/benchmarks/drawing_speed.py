"""Milliseconds of CPU that each kind of drawing takes for each build of the demo, with its SVG."""

import time
from collections.abc import Callable, Iterator
from pathlib import Path

from builder.compute.order.work_order import Plan
from builder.pages.drawing import Drawing
from builder.pages.drawings.bundles import bundle_drawing
from builder.pages.drawings.wiring_drawing import wiring_drawing
from builder.pages.plots.air_time import air_time
from builder.pages.plots.joint_heat import heat_picture
from builder.pages.plots.weight_bar import weight_bar
from builder.pages.sections.wiring import wiring
from builder.pages.sheet_input import SheetInput
from builder.pages.site.small_picture import from_rotors
from builder.pages.summaries.summarise import summarise
from builder.pages.views.from_above import view_from_above
from builder.pages.views.from_below import view_from_below
from builder.pages.views.from_side import view_from_side
from builder.pages.views.stack_drawings import stack_apart, stack_section
from builder.pages.views.step_picture import StepPictures
from builder.pipeline.check import check_workspace
from builder.render.html.svg import svg
from tests.benchmarks.measured import Line, at_most

_BOUND = 100.0  # ms a kind and build
Drawn = Drawing | None


def _steps(sheet: SheetInput) -> list[Drawn]:
    plan = sheet.results.order
    made = StepPictures(sheet)
    return [made.of(group) for group in plan.groups] if isinstance(plan, Plan) else []


def _wires(sheet: SheetInput) -> list[Drawn]:
    return [wiring_drawing(sheet.build, sheet.results.netlist)]


def _small(sheet: SheetInput) -> list[Drawn]:
    summary = summarise(sheet)
    return [from_rotors(summary)] if summary.rotors else []


def _boards(sheet: SheetInput) -> list[Drawn]:
    """The section with a drawing a board; the tables beside them are counted in."""
    wiring(sheet)
    return []


KINDS: dict[str, Callable[[SheetInput], list[Drawn]]] = {
    "aircraft from above": lambda s: [view_from_above(s, numbered=True, words={})],
    "aircraft from the side": lambda s: [view_from_side(s, words={}, link="")],
    "aircraft from below": lambda s: [view_from_below(s, words={}, link="")],
    "stack in section": lambda s: [stack_section(s)],
    "stack apart": lambda s: [stack_apart(s)],
    "steps, all": _steps,
    "wires, all": _wires,
    "wires as bundles": lambda s: [bundle_drawing(s.build, s.results.netlist)],
    "boards with wires, tables": _boards,
    "weight": lambda s: [weight_bar(s.build.name, s.results.mass)],
    "time in the air": lambda s: [air_time(s.build.name, s.results.flight)],
    "heat of joints": lambda s: [heat_picture(s.build.name, s.results.joints)],
    "small": _small,
}


def milliseconds(draw: Callable[[SheetInput], list[Drawn]], sheet: SheetInput) -> float:
    """CPU of a kind of drawing and its SVG. Once: the ways of wires are kept after that."""
    start = time.process_time()
    for drawing in draw(sheet):
        if drawing is not None:
            svg(drawing)
    return 1000 * (time.process_time() - start)


def drawings(workspace: Path) -> Iterator[Line]:
    """A line for each kind: what the slowest build takes."""
    sheets = check_workspace(workspace).sheets
    for kind, draw in KINDS.items():
        taken = {name: milliseconds(draw, sheet) for name, sheet in sheets.items()}
        slowest = max(taken, key=lambda name: taken[name])
        yield at_most(f"drawing, {kind}, {slowest}", taken[slowest], _BOUND, "ms of CPU")
