"""Before you start: cautions by what the build holds, tools and consumables to lay out."""

from builder.model.kinds import Consumable, GroundGear, Tool
from builder.pages.blocks import Block, Cell, Column, Notice, Row, Section, Span, Table, Tick
from builder.pages.sheet_input import SheetInput
from builder.rules.cautions import cautions_for


def before_you_start(sheet: SheetInput) -> Section:
    """Cautions, worst first, then what has to lie on the bench."""
    found = [f for f in sheet.verdict.findings if f.signal is not None]
    blocks: list[Block] = [
        Notice(c.signal, c.title, (Span(c.text),), f"caution-{c.key}") for c in cautions_for(sheet.build)
    ]
    blocks += [Notice(f.signal, f.message, (Span(f.hint),), code=f.code, tone="fault") for f in found]
    rows = []
    for heading, kinds in (("Tools", (Tool,)), ("Consumables", (Consumable,)), ("On the ground", (GroundGear,))):
        own = sheet.build.of_kind(*kinds)
        if own:
            rows.append(Row((Cell((Span(heading),)),), kind="group"))
            rows += [
                Row(
                    (
                        Cell((Span(f.part.name),)),
                        Cell((Span(f.part.note or ""),)),
                        Cell((Tick(f"lay-{f.key}", f"{f.part.name} at hand"),)),
                    )
                )
                for f in own
            ]
    if rows:
        blocks.append(
            Table("Lay out", (Column("Thing"), Column("Note"), Column("At hand", align="centre")), tuple(rows))
        )
    return Section("before", "Before you start", tuple(blocks))
