"""Before you start: cautions by what the build holds, tools and consumables to lay out."""

from collections.abc import Iterable
from dataclasses import replace

from builder.compute.order.work_order import Plan
from builder.diagnostics.finding import Finding, Signal
from builder.model.kinds import GroundGear
from builder.pages.blocks import (
    Column,
    Notice,
    Row,
    Section,
    Span,
    Table,
    Tick,
)
from builder.pages.finding_words import finding_notice
from builder.pages.rows import table_columns, table_row
from builder.pages.sheet_input import SheetInput
from builder.pages.work.bench_things import Thing, things
from builder.rules.cautions import Caution, cautions_for

_COLUMNS = table_columns("Thing", "Note", "First needed in", Column("At hand", align="centre"))


def _rows(heading: str, found: Iterable[Thing]) -> list[Row]:
    rows = []
    for t in found:
        wanted, tick = t.wanted.replace(" ", "\u00a0"), Tick(f"lay-{t.key}", t.name)
        rows.append(table_row(t.name, t.note, wanted, tick))
    return [table_row(heading, kind="group"), *rows] if rows else []


_FAMILIES = {
    "wiring": ("wiring", "power", "fit"),
    "setup": ("setup", "radio"),
    "flight": ("pack", "law", "power"),
}
_ARISE = {
    "wiring": (),
    "setup": ("propellers", "pack", "boards", "antenna"),
    "flight": ("pack", "propellers", "goggles", "law"),
}


def _caution_notice(caution: Caution) -> Notice:
    return Notice(caution.signal, caution.title, (Span(caution.text),), f"caution-{caution.key}")


def before_you_start(sheet: SheetInput) -> Section:
    """All cautions and what was found that carries a signal word, in the order of their level. A
    fault that the builder accepted has the reason beside it.
    """
    found = [f for f in sheet.verdict.findings if f.signal is not None]
    blocks = [
        *map(_caution_notice, cautions_for(sheet.build)),
        *(_found_notice(sheet, f) for f in found),
    ]
    levels = list(Signal)
    ordered = sorted(blocks, key=lambda n: levels.index(n.signal or Signal.NOTICE))
    return Section("before", "Before you start", tuple(ordered))


def _found_notice(sheet: SheetInput, found: Finding) -> Notice:
    """A finding with its signal word, and why the builder accepted it."""
    made = finding_notice(found, sheet, "fault")
    because = [a.reason for a in sheet.verdict.accepted if a.finding is found]
    if not because:
        return made
    return replace(made, pieces=(*made.pieces, Span(f" Accepted by the builder: {because[0]}")))


def cautions_on(sheet: SheetInput, page: str) -> Section:
    """The cautions that arise on another page than the one for the bench, as they are there."""
    keys, families = _ARISE[page], _FAMILIES[page]
    mine = [c for c in cautions_for(sheet.build) if c.key in keys]
    found = [f for f in sheet.verdict.findings if f.signal is not None]
    of_page = [f for f in found if f.code.partition("/")[0] in families]
    blocks = [*map(_caution_notice, mine), *(_found_notice(sheet, f) for f in of_page)]
    return Section("cautions", "Before you start", tuple(blocks), role="cautions")


def things_to_lay_out(sheet: SheetInput) -> tuple[tuple[str, tuple[Thing, ...]], ...]:
    """What has to lie on the bench by its kind: tools, consumables, what stays on the ground."""
    plan = sheet.results.order if isinstance(sheet.results.order, Plan) else None
    ground = (
        Thing(f.key, f.part.name, f.part.note or "", "") for f in sheet.build.of_kind(GroundGear)
    )
    gates = sheet.results.gates
    return (
        ("Tools", tuple(things(sheet.build, plan, gates, consumable=False))),
        ("Consumables", tuple(things(sheet.build, plan, gates, consumable=True))),
        ("On the ground", tuple(ground)),
    )


def lay_out(sheet: SheetInput) -> Section:
    """What has to lie on the bench, with where it is first needed."""
    rows = [row for heading, found in things_to_lay_out(sheet) for row in _rows(heading, found)]
    note = "What the build lists first, then what its steps ask for besides."
    blocks = (Table("", _COLUMNS, tuple(rows), note=note),) if rows else ()
    return Section("lay-out", "Get ready", blocks)
