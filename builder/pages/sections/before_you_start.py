"""Before you start: cautions by what the build holds, tools and consumables to lay out."""

from collections.abc import Iterable

from builder.compute.work_order import Plan
from builder.model.kinds import GroundGear
from builder.pages.blocks import Block, Cell, Column, Notice, Row, Section, Span, Table, Tick
from builder.pages.lay_out import Thing, things
from builder.pages.sheet_input import SheetInput
from builder.rules.cautions import cautions_for

_COLUMNS = (Column("Thing"), Column("Note"), Column("Wanted from"), Column("At hand", align="centre"))


def _rows(heading: str, found: Iterable[Thing]) -> list[Row]:
    rows = [
        Row(
            (
                Cell((Span(t.name),)),
                Cell((Span(t.note),)),
                Cell((Span(t.wanted),)),
                Cell((Tick(f"lay-{t.key}", f"{t.name} at hand"),)),
            )
        )
        for t in found
    ]
    return [Row((Cell((Span(heading),)),), kind="group"), *rows] if rows else []


def before_you_start(sheet: SheetInput) -> Section:
    """Cautions, worst first, then what has to lie on the bench."""
    found = [f for f in sheet.verdict.findings if f.signal is not None]
    blocks: list[Block] = [
        Notice(c.signal, c.title, (Span(c.text),), f"caution-{c.key}") for c in cautions_for(sheet.build)
    ]
    blocks += [Notice(f.signal, f.message, (Span(f.hint),), code=f.code, tone="fault") for f in found]
    plan = sheet.results.order if isinstance(sheet.results.order, Plan) else None
    ground = (Thing(f.key, f.part.name, f.part.note or "", "") for f in sheet.build.of_kind(GroundGear))
    rows = [
        *_rows("Tools", things(sheet.build, plan, consumable=False)),
        *_rows("Consumables", things(sheet.build, plan, consumable=True)),
        *_rows("On the ground", ground),
    ]
    if rows:
        note = "What the build lists first, then what its steps ask for besides."
        blocks.append(Table("Lay out", _COLUMNS, tuple(rows), note=note))
    return Section("before", "Before you start", tuple(blocks))
