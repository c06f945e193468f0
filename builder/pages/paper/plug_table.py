"""The contacts of a plugged harness, to beep-test it by and to see which way round it lies."""

from collections.abc import Sequence

from builder.compute.circuit.contacts import Join
from builder.compute.joints.bench_pieces import plug_name
from builder.compute.order.steps import WorkStep
from builder.compute.order.work_order import Plan
from builder.pages.blocks import Block, Cell, Column, Row, Span, Table, Tick, TwoStacks
from builder.pages.sheet_input import SheetInput

_HEADS = (
    Column("Contact", align="right"),
    Column("From"),
    Column("To"),
    Column("Beeps", align="centre"),
)
_SHORT = 4  # rows that are not worth two tables


def _row(join: Join) -> Row:
    first, second = (Cell((Span(str(c), code=True),)) for c in (join.a, join.b))
    box = Tick(f"plug-{join.a}", f"{join.a} to {join.b} beeps")
    return Row((Cell((Span(str(join.position)),)), first, second, Cell((box,))))


def _table(caption: str, joins: Sequence[Join]) -> Table:
    return Table(caption, _HEADS, tuple(map(_row, joins)))


def _beside(name: str, joins: Sequence[Join]) -> Block:
    """A long table as two halves beside each other."""
    if len(joins) <= _SHORT:
        return _table(f"Contacts of {name}", joins)
    half = (len(joins) + 1) // 2
    first, second = joins[:half], joins[half:]
    span = f"{second[0].position} to {second[-1].position}"
    return TwoStacks((_table(f"Contacts of {name}", first),), (_table(f"Contacts {span}", second),))


def plug_tables(sheet: SheetInput, step: WorkStep) -> tuple[Block, ...]:
    """What a step that closes a plug joins, contact by contact."""
    found = []
    for plug in sheet.build.plugs:
        name = plug_name(plug)
        if step.id == f"plug {name}" and is_tested(sheet, step):
            made = (j for j in sheet.results.netlist.joins if j.by == "plug")
            found.append((name, [j for j in made if j.where == plug.where]))
    return tuple(_beside(name, joins) for name, joins in found if joins)


def is_tested(sheet: SheetInput, step: WorkStep) -> bool:
    """Whether what a step plugs in is beep-tested before: a cable is, a socket of its own that a
    part brings along is not.
    """
    plan = sheet.results.order
    if not isinstance(plan, Plan):
        return False
    name = step.id.removeprefix("plug ")
    return any(s.id == f"ring {name}" for s in plan.steps)


def plugged_words(sheet: SheetInput, step: WorkStep) -> str:
    """Which contact meets which, where no table says it: `A to M1A, B to M1B, C to M1C.`"""
    for plug in sheet.build.plugs:
        if step.id == f"plug {plug_name(plug)}" and not is_tested(sheet, step):
            joins = (j for j in sheet.results.netlist.joins if j.by == "plug")
            pairs = [f"{j.a.pad} to {j.b.pad}" for j in joins if j.where == plug.where]
            return f" {', '.join(pairs)}." if pairs else ""
    return ""
