"""The soldering order on the sheet: joints in the order in which they are made, each leading to its
step.
"""

from collections.abc import Mapping
from itertools import groupby

from builder.compute.order.steps.work_step import WorkStep
from builder.compute.order.work_order import Cycle
from builder.pages.blocks import Block, Bullets, Illustration, Inline, Paragraph, Section, Span
from builder.pages.plots.joint_heat import heat_picture
from builder.pages.sheet_input import SheetInput
from builder.pages.work.plan_items import step_anchors


def _place(step: WorkStep) -> tuple[str, str, str, int]:
    return step.board, step.side, step.tip, step.iron


def _joints(run: list[WorkStep], anchors: Mapping[str, str]) -> tuple[Inline, ...]:
    board, side, tip, iron = _place(run[0])
    under = ", underside" if side == "under" else ""
    pieces: list[Inline] = [Span(f"{board}{under}, {tip} tip, {iron} °C: ")]
    for i, step in enumerate(run):
        pieces += [Span(", ")] if i else []
        name = str(step.joint.contact).removeprefix(board + ".") if step.joint is not None else ""
        pieces.append(Span(name, f"#{anchors[step.id]}"))
    return (*pieces, Span("."))


def soldering_order(sheet: SheetInput) -> Section:
    """Runs of joints on one board with one iron; empty for a build in which nothing is soldered or
    done, and where no order keeps all lines.
    """
    plan = sheet.results.order
    if isinstance(plan, Cycle) or not plan.steps:
        return Section("soldering-order", "Soldering order", ())
    lead = Paragraph(
        (
            Span("Every step with its place, wire, iron, reason and a box to tick: "),
            Span("order of work", "#order"),
            Span(", each gate of the "),
            Span("first power-up", "#first-power-up"),
            Span(" in its place."),
        ),
        lead=True,
    )
    blocks: list[Block] = [lead]
    joints = [s for s in plan.steps if s.joint is not None]
    if joints:
        anchors = step_anchors(plan)
        runs = tuple(_joints(list(run), anchors) for _, run in groupby(joints, key=_place))
        blocks.append(Bullets(runs, ordered=True))
    return Section("soldering-order", "Soldering order", tuple(blocks))


def hardest_joints(sheet: SheetInput) -> Section:
    """Which joints are near what the iron can heat, as a picture; empty where no figure is known."""
    drawn = heat_picture(sheet.build.name, sheet.results.joints)
    if drawn is None:
        return Section("joint-heat", "Hardest joints", ())
    caption = (
        "Seconds until the hardest joints are hot, by the figures. The frame is the usual time. A bar"
        " that says late is later than that: its step says what to do."
    )
    return Section("joint-heat", "Hardest joints", (Illustration(drawn, caption, plot=True),))
