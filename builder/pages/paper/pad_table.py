"""The contacts of a board that are soldered in one stretch of the work: its drawing with the number
of the step at each contact, and a row a wire with all that the hand needs, a box and room for what
was done otherwise.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from builder.compute.circuit.contacts import Join
from builder.compute.circuit.pinout import letters
from builder.compute.joints.bench_pieces import mm
from builder.compute.joints.heating import Heat
from builder.compute.joints.joints import Joint
from builder.compute.joints.tips import gauge_of
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
    "Wire",
    right_column("Length"),
    right_column("Bare"),
    "Iron, time",
    Column("Done", align="centre"),
    "As built",
)
_FEWEST = 3  # contacts from which a piece is drawn


def _length(join: Join) -> str:
    """As cut, or as a fitted lead is trimmed."""
    wire = join.wire
    if wire is None:
        return ""
    if wire.trim_to is not None:
        return f"trim to {mm(wire.trim_to.value)}"
    return mm(wire.length.value) if wire.length is not None else "as fitted"


def _wire(build: Build, join: Join) -> Cell:
    """Colour with its letters, and the gauge."""
    colour, gauge = colour_of(build, join), gauge_of(build, join)
    pieces: list[Inline] = [Swatch(colour, letters(colour))] if colour else []
    if gauge is not None:
        pieces.append(Span(f" {gauge.label}".replace(" ", "\u00a0") if colour else gauge.label))
    return Cell(tuple(pieces))


def _iron(heat: Heat) -> str:
    """`medium 350 °C, 3 to 5 s`; a broad tip stays until the solder flows, so its time is a limit."""
    first, last = heat.dwell
    span = f"{first} to {last} s" if first < last else f"{last} s"
    time = f"{span} at most" if heat.tip == "broad" else span
    return f"{heat.tip} {heat.setting} °C, {time}"


def _row(build: Build, joint: Joint, at: int, step: str) -> Row:
    """One wire of a joint. The wires of one contact are soldered in one heating, with one box."""
    join, other, first = joint.wires[at], joint.others[at], at == 0
    iron = _iron(joint.heat) if first else "in the same heating"
    key = f"joint-{joint.contact}"
    box = Cell((Tick(key, f"{joint.contact} soldered"),)) if first else Cell()
    return table_row(
        step if first else "",
        Span(joint.contact.pad, code=True),
        contact_span(other),
        _wire(build, join),
        _length(join),
        mm(joint.heat.strip),
        iron,
        box,
        WriteIn(f"{key}-built-{at}", ""),
    )


def pad_table(
    sheet: SheetInput, board: str, found: Sequence[Joint], steps: Mapping[Contact, str]
) -> Table:
    """A row a wire, in the order of the steps."""
    rows = [
        _row(sheet.build, joint, at, steps[joint.contact])
        for joint in found
        for at in range(len(joint.wires))
    ]
    return Table(
        f"Joints of {board}", _COLUMNS, tuple(rows), note=" ".join(pad_notes(sheet.build, found))
    )


def board_view(
    sheet: SheetInput, board: str, found: Sequence[Joint], steps: Mapping[Contact, str]
) -> Illustration | None:
    """A board from its top with the steps at its contacts; None where it has too few to draw, or
    nobody says where they are.
    """
    build = sheet.build
    pins = next((b for b in sheet.results.pinout.boards if b.board == board), None)
    if pins is None or len(pins.rows) < _FEWEST or not is_drawn(build, board):
        return None
    at = {j.contact.pad: steps[j.contact] for j in found}
    drawn = board_drawing(build, sheet.results.netlist, board, at)
    first = steps[found[0].contact]
    view = replace(drawn, name=f"{drawn.name}-{first}")  # a board may be drawn twice
    return Illustration(view, "Bold: the step. Filled: wired. Not to scale.")
