"""What is read in a step, a field each: 'each wire to its own' is a field for each wire."""

from collections.abc import Iterator
from dataclasses import replace

from builder.compute.circuit.contacts import plug_joins
from builder.compute.joints.bench_pieces import plug_name
from builder.compute.joints.strips import hidden_lines
from builder.compute.order.steps.load_steps import underside_id
from builder.compute.order.steps.work_step import Measure, WorkStep
from builder.compute.power_up.gate_checks import BEEPS
from builder.model.build import Contact
from builder.pages.sheet_input import SheetInput

_ITS_OWN = "to its own"


def _wires(sheet: SheetInput, step: WorkStep) -> Iterator[tuple[Contact, Contact]]:
    """The wires that a step tries end to end: of a cable, or those under a board."""
    build = sheet.build
    for plug in build.plugs:
        if step.id == f"ring {plug_name(plug)}":
            yield from ((j.a, j.b) for j in plug_joins(build, plug))
    if step.id == underside_id(step.board):
        for joint in hidden_lines(build, sheet.results.joints, step.board):
            yield from ((joint.contact, other) for other in joint.others)


def measures_of(sheet: SheetInput, step: WorkStep) -> tuple[Measure, ...]:
    """The readings of a step. Where its wires are not known, the line stays one field."""
    out: list[Measure] = []
    for measure in step.measures:
        ends = dict.fromkeys(_wires(sheet, step)) if _ITS_OWN in measure.expect else {}
        row = [replace(measure, label=f"{a} to {b}", expect=BEEPS, unit="Ω") for a, b in ends]
        out += row or [measure]
    return tuple(out)
