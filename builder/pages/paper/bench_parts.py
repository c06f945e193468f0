"""What to lay out before the iron is warm: one line a part, with a box."""

from builder.model.build import Fitted
from builder.model.kinds import Consumable, GroundGear, Tool
from builder.pages.blocks import Block, Cell, Column, Row, Span, Table, Tick, TwoStacks
from builder.pages.sheet_input import SheetInput
from builder.pages.tables.part_numbers import GROUPS

_COLUMNS = (
    Column("Part"),
    Column("Pieces", align="right"),
    Column("Spares", align="right"),
    Column("Here", align="centre"),
)
_SHORT = 12  # rows that are not worth two tables


def _row(f: Fitted) -> Row:
    spares = str(f.use.spares) if f.use.spares else ""
    return Row(
        (
            Cell((Span(f"{f.part.name} "), Span(f.key, code=True))),
            Cell((Span(str(f.count)),)),
            Cell((Span(spares),)),
            Cell((Tick(f"part-{f.key}", f"{f.part.name} at hand"),)),
        )
    )


def _group(sheet: SheetInput, group: str) -> list[Row]:
    """A group's heading and parts; nothing for a group without."""
    elsewhere = Consumable | GroundGear | Tool
    parts = (f for f in sheet.build.parts.values() if not isinstance(f.part, elsewhere))
    mine = [_row(f) for f in parts if group == f.part.GROUP]
    heading = "Battery" if group == "pack" else group.capitalize()
    return [Row((Cell((Span(heading),)),), kind="group"), *mine] if mine else []


def bench_parts(sheet: SheetInput) -> Block | None:
    """The parts that go onto the aircraft, by group, without prices; None for a build without
    parts.
    """
    groups = [rows for group in GROUPS if (rows := _group(sheet, group))]
    rows = [row for group in groups for row in group]
    if not rows:
        return None
    if len(rows) <= _SHORT:
        return Table("Parts", _COLUMNS, tuple(rows))
    first: list[Row] = []
    while len(first) < len(rows) / 2:
        first += groups.pop(0)
    second = [row for group in groups for row in group]
    if not second:
        return Table("Parts", _COLUMNS, tuple(rows))
    halves = (Table("Parts", _COLUMNS, tuple(first)), Table("More parts", _COLUMNS, tuple(second)))
    return TwoStacks((halves[0],), (halves[1],))
