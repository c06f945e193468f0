"""What to lay out before the iron is warm: one line a part, with a box."""

from builder.model.kinds import Consumable, GroundGear, Tool
from builder.pages.blocks import Cell, Column, Row, Span, Table, Tick
from builder.pages.sections.parts import GROUPS
from builder.pages.sheet_input import SheetInput

_COLUMNS = (
    Column("Part"),
    Column("Called"),
    Column("Pieces", align="right"),
    Column("Spares", align="right"),
    Column("At hand", align="centre"),
)


def bench_parts(sheet: SheetInput) -> Table | None:
    """The parts that go onto the aircraft, by group, without prices; None for a build without
    parts.
    """
    rows: list[Row] = []
    for group in GROUPS:
        mine = [
            f
            for f in sheet.build.parts.values()
            if group == f.part.GROUP and not isinstance(f.part, Consumable | GroundGear | Tool)
        ]
        if mine:
            rows.append(
                Row(
                    (Cell((Span("Battery" if group == "pack" else group.capitalize()),)),),
                    kind="group",
                )
            )
        rows += [
            Row(
                (
                    Cell((Span(f.part.name),)),
                    Cell((Span(f.key, code=True),)),
                    Cell((Span(str(f.count)),)),
                    Cell((Span(str(f.use.spares) if f.use.spares else ""),)),
                    Cell((Tick(f"part-{f.key}", f"{f.part.name} at hand"),)),
                )
            )
            for f in mine
        ]
    return Table("Parts", _COLUMNS, tuple(rows)) if rows else None
