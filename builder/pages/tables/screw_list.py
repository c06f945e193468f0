"""The screw list by place: what each passes through, how far it grips, what room is left behind its
end.
"""

from builder.compute.figures.figure import Figure
from builder.compute.geometry.screws import ScrewRow
from builder.pages.blocks import Cell, Column, Row, Table, Tick
from builder.pages.numbers import cell, number
from builder.pages.rows import right_column, table_columns, table_row
from builder.pages.sheet_input import SheetInput
from builder.rounding import rounded

_COLUMNS = table_columns(
    "Place",
    "Screw",
    "Passes through",
    "Into",
    right_column("Grip"),
    right_column("Room behind"),
    "Lock",
    Column("Done", align="centre"),
)
_LOCK = {True: "thread lock", False: "none", None: "not said"}


def _stack_up(row: ScrewRow) -> Cell:
    layers = ", ".join(f"{what} {rounded(1000 * thick, 1)}" for what, thick in row.through)
    return Cell((number(row.passed),), note=f"{layers} mm" if layers else "")


def _row(row: ScrewRow) -> Row:
    grip = Cell((number(row.grip),))
    if isinstance(row.grip_diameters, Figure):
        grip = Cell((number(row.grip),), note=f"{rounded(row.grip_diameters.value, 2)} diameters")
    size = (
        f"{row.thread} x {1000 * row.length.value:g}"
        if isinstance(row.length, Figure)
        else row.thread
    )
    head = f"{row.head} head" if row.head and row.head != "none" else ""
    behind = row.behind and f"behind its end: {row.behind}"
    lock = _LOCK[row.lock]
    return table_row(
        cell(row.place, note=f"{row.count} of them"),
        cell(size, note=head),
        _stack_up(row),
        cell(row.into or "not said", note=behind),
        grip,
        number(row.room),
        cell(lock, note=row.note),
        Tick(f"screw-{row.place}", f"{row.place} done"),
    )


def screw_table(sheet: SheetInput) -> Table | None:
    """Screws by place; None where the build lists none."""
    rows = tuple(_row(r) for r in sheet.results.screws)
    if not rows:
        return None
    note = (
        "Grip below 0.6 diameters strips; keep 0.3 mm clear of a winding. Try one screw by hand"
        " before the rest."
    )
    return Table("Screws by place", _COLUMNS, rows, anchor="screws", stack=True, note=note)
