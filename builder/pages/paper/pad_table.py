"""The contacts of a board that are soldered in one stretch of the work: its drawing with the number
of the step at each contact, and a row a wire with all that the hand needs, a box and room for what
was done otherwise.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from builder.compute.circuit.contacts import Join
from builder.compute.circuit.pinout import letters
from builder.compute.joints.bench_pieces import mm
from builder.compute.joints.heating import Heat
from builder.compute.joints.joints import Joint
from builder.compute.joints.tips import gauge_of
from builder.compute.order.steps.work_step import WorkStep
from builder.model.build import Build, Contact
from builder.pages.blocks import (
    Cell,
    Column,
    Illustration,
    Inline,
    Row,
    Span,
    Swatch,
    Table,
    Tick,
    WriteIn,
)
from builder.pages.drawings.board_drawing import board_drawing, is_drawn
from builder.pages.drawings.wiring_drawing import colour_of
from builder.pages.paper.pad_notes import pad_notes
from builder.pages.rows import right_column, table_columns, table_row
from builder.pages.sheet_input import SheetInput
from builder.pages.wire_words import contact_span

_COLUMNS = table_columns(
    right_column("Step"),
    "Pad",
    "To",
    "Wire (AWG)",
    right_column("Length / bare"),
    "Iron, time",
    Column("Done", align="centre"),
    "As built",
)
_FEWEST = 3  # contacts from which a piece is drawn


@dataclass(frozen=True)
class Soldering:
    """Where a contact is soldered: the number on the sheet, and the step of the plan."""

    number: str
    step: WorkStep


def _length(join: Join, bare: float) -> str:
    """As cut, or as a fitted lead is trimmed, and how much of it is bare: `85 / 3 mm`."""
    wire, stripped = join.wire, mm(bare)
    if wire is None:
        return stripped
    if wire.trim_to is not None:
        return f"trim to {_number(wire.trim_to.value)} / {stripped}"
    if wire.length is not None:
        return f"{_number(wire.length.value)} / {stripped}"
    return f"as fitted / {stripped}"


def _number(metres: float) -> str:
    return mm(metres).removesuffix(" mm")


def _wire(build: Build, join: Join) -> Cell:
    """Colour with its letters, and the gauge, whose unit the heading says."""
    colour, gauge = colour_of(build, join), gauge_of(build, join)
    pieces: list[Inline] = [Swatch(colour, letters(colour))] if colour else []
    if gauge is not None:
        label = gauge.label.removesuffix(" AWG").replace(" ", "\u00a0")
        pieces.append(Span(f"\u00a0{label}" if colour else label))
    return Cell(tuple(pieces))


def _iron(step: WorkStep, heat: Heat) -> str:
    """`medium 350 °C, 3 to 5 s`: the iron of the step, which serves all of its joints. A broad tip
    stays until the solder flows, so its time is a limit.
    """
    first, last = heat.dwell
    span = f"{first} to {last} s" if first < last else f"{last} s"
    time = f"{span} at most" if heat.tip == "broad" else span
    return f"{step.tip} {step.iron} °C, {time}"


def _row(build: Build, joint: Joint, at: int, step: Soldering) -> Row:
    """One wire of a joint. The wires of one contact are soldered in one heating, with one box."""
    join, other, first = joint.wires[at], joint.others[at], at == 0
    iron = _iron(step.step, joint.heat) if first else "in the same heating"
    key = f"joint-{joint.contact}"
    box = Cell((Tick(key, f"{joint.contact} soldered"),)) if first else Cell()
    return table_row(
        step.number if first else "",
        Span(joint.contact.pad, code=True),
        contact_span(other),
        _wire(build, join),
        _length(join, joint.heat.strip),
        iron,
        box,
        WriteIn(f"{key}-built-{at}", ""),
    )


def _same(build: Build, step: Soldering, joint: Joint) -> tuple[object, ...]:
    """What joints of one row have in common: all but the two contacts."""
    join, other = joint.wires[0], joint.others[0]
    far = (other.part, other.piece)
    wire = (colour_of(build, join), gauge_of(build, join), _length(join, joint.heat.strip))
    return (step.number, joint.board, far, wire, _iron(step.step, joint.heat))


def _row_of_likes(build: Build, found: Sequence[Joint], step: Soldering) -> Row:
    """Joints that differ in nothing but their contacts, as the three leads of a motor: one row, a
    box each.
    """
    first = found[0]
    pads = ", ".join(j.contact.pad for j in found)
    far = [j.others[0] for j in found]
    other = f"{contact_span(far[0]).text}, {', '.join(c.pad for c in far[1:])}"
    boxes = tuple(Tick(f"joint-{j.contact}", f"{j.contact} soldered") for j in found)
    return table_row(
        step.number,
        Span(pads, code=True),
        Span(other, code=True),
        _wire(build, first.wires[0]),
        _length(first.wires[0], first.heat.strip),
        _iron(step.step, first.heat),
        Cell(boxes),
        WriteIn(f"joint-{first.contact}-built-0", ""),
    )


def _rows(build: Build, found: Sequence[Joint], steps: Mapping[Contact, Soldering]) -> list[Row]:
    """A row a wire; joints that follow each other and differ in their contacts only are one row."""
    rows: list[Row] = []
    run: list[Joint] = []

    def close() -> None:
        if len(run) > 1:
            rows.append(_row_of_likes(build, run, steps[run[0].contact]))
        elif run:
            rows.append(_row(build, run[0], 0, steps[run[0].contact]))
        run.clear()

    for joint in found:
        step = steps[joint.contact]
        if len(joint.wires) > 1:
            close()
            rows += [_row(build, joint, at, step) for at in range(len(joint.wires))]
            continue
        if run and _same(build, steps[run[0].contact], run[0]) != _same(build, step, joint):
            close()
        run.append(joint)
    close()
    return rows


def pad_table(
    sheet: SheetInput, boards: Mapping[str, Sequence[Joint]], steps: Mapping[Contact, Soldering]
) -> Table:
    """The joints of boards in the order of the steps, under the name of each board."""
    rows: list[Row] = []
    notes: list[str] = []
    for board, found in boards.items():
        name = f"On {board}: " if len(boards) > 1 else ""
        if name:
            rows.append(table_row(f"Joints of {board}", kind="group"))
        rows += _rows(sheet.build, found, steps)
        notes += [f"{name}{said}" for said in pad_notes(sheet.build, found)]
    return Table("", _COLUMNS, tuple(rows), note=" ".join(notes))


def board_view(
    sheet: SheetInput, board: str, found: Sequence[Joint], steps: Mapping[Contact, Soldering]
) -> Illustration | None:
    """A board from its top with the steps at its contacts, at the size of its letters; None where it
    has too few to draw, or nobody says where they are.
    """
    build = sheet.build
    pins = next((b for b in sheet.results.pinout.boards if b.board == board), None)
    if pins is None or len(pins.rows) < _FEWEST or not is_drawn(build, board):
        return None
    at = {j.contact.pad: steps[j.contact].number for j in found}
    drawn = board_drawing(build, sheet.results.netlist, board, at, least=0.0)
    first = steps[found[0].contact].number
    view = replace(drawn, name=f"{drawn.name}-{first}")  # a board may be drawn twice
    return Illustration(view, "", true_size=True)
