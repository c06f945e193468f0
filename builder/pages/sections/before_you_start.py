"""Before you start: cautions by what the build holds, tools and consumables to lay out."""

from collections.abc import Iterable

from builder.compute.order.work_order import Plan
from builder.model.kinds import GroundGear
from builder.pages.blocks import (
    Block,
    Cell,
    Column,
    Notice,
    Paragraph,
    Row,
    Section,
    Span,
    Table,
    Tick,
)
from builder.pages.finding_words import finding_notice
from builder.pages.sections.soldering_order import work_address
from builder.pages.sheet_input import SheetInput
from builder.pages.work.bench_needs import Thing, things
from builder.rules.cautions import cautions_for

_COLUMNS = (
    Column("Thing"),
    Column("Note"),
    Column("First needed in"),
    Column("At hand", align="centre"),
)


def _rows(heading: str, found: Iterable[Thing]) -> list[Row]:
    rows = [
        Row(
            (
                Cell((Span(t.name),)),
                Cell((Span(t.note),)),
                Cell((Span(t.wanted.replace(" ", "\u00a0")),)),
                Cell((Tick(f"lay-{t.key}", f"{t.name} at hand"),)),
            )
        )
        for t in found
    ]
    return [Row((Cell((Span(heading),)),), kind="group"), *rows] if rows else []


def before_you_start(sheet: SheetInput, *, paper: bool = False) -> Section:
    """Cautions, worst first; on screens also where the list of what to get ready stands."""
    found = [f for f in sheet.verdict.findings if f.signal is not None]
    blocks: list[Block] = [
        Notice(c.signal, c.title, (Span(c.text),), f"caution-{c.key}")
        for c in cautions_for(sheet.build)
    ]
    blocks += [finding_notice(f, sheet, "fault") for f in found]
    if not paper and lay_out(sheet).blocks:
        link = Span("what to get ready", f"{work_address(sheet.build.name)}#lay-out")
        blocks.append(
            Paragraph(
                (
                    Span("Tools and consumables, each with the step that first needs it: "),
                    link,
                    Span("."),
                )
            )
        )
    return Section("before", "Before you start", tuple(blocks))


def lay_out(sheet: SheetInput) -> Section:
    """What has to lie on the bench: tools, consumables, what stays on the ground."""
    plan = sheet.results.order if isinstance(sheet.results.order, Plan) else None
    ground = (
        Thing(f.key, f.part.name, f.part.note or "", "") for f in sheet.build.of_kind(GroundGear)
    )
    rows = [
        *_rows("Tools", things(sheet.build, plan, sheet.results.gates, consumable=False)),
        *_rows("Consumables", things(sheet.build, plan, sheet.results.gates, consumable=True)),
        *_rows("On the ground", ground),
    ]
    note = "What the build lists first, then what its steps ask for besides."
    blocks = (Table("", _COLUMNS, tuple(rows), note=note),) if rows else ()
    return Section("lay-out", "Get ready", blocks)
