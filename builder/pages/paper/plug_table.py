"""The contacts of a plugged harness, to beep-test it by and to see which way round it lies."""

from collections.abc import Sequence

from builder.compute.circuit.contacts import Join, in_mating_order
from builder.compute.joints.bench_pieces import plug_name
from builder.compute.order.steps.propeller_step import NOT_KNOWN
from builder.compute.order.steps.work_step import WorkStep
from builder.compute.order.work_order import Plan
from builder.model.build import Build
from builder.pages.blocks import Block, Cell, Column, Row, Span, Table, Tick, TwoStacks
from builder.pages.sheet_input import SheetInput

_HEADS = (
    Column("Contact", align="right"),
    Column("From"),
    Column("To"),
    Column("Beeps", align="centre"),
)
_SHORT = 4  # rows that are not worth two tables
_FIRST = "Contact 1 is the left one, seen into the board's socket with the latch up."


def _places(build: Build, join: Join) -> str:
    """Which contact of a cable's one plug beeps to which of its other: `1 to 8`."""
    sockets = build.parts[join.b.part].part.sockets.values()
    orders = (in_mating_order(s) for s in sockets if join.b.pad in s.contacts)
    far = next((order.index(join.b.pad) + 1 for order in orders), NOT_KNOWN)
    return f"{join.position} to {far}"


def _row(build: Build, join: Join) -> Row:
    first, second = (Cell((Span(str(c), code=True),)) for c in (join.a, join.b))
    box = Tick(f"plug-{join.a}", f"{join.a} to {join.b} beeps")
    return Row((Cell((Span(_places(build, join)),)), first, second, Cell((box,))))


def _beside(build: Build, name: str, joins: Sequence[Join]) -> Block:
    """A long table as two halves beside each other."""
    rows = tuple(_row(build, join) for join in joins)
    half = (len(joins) + 1) // 2
    if len(joins) <= _SHORT:
        return Table(f"Contacts of {name}", _HEADS, rows, note=_FIRST)
    span = f"{joins[half].position} to {joins[-1].position}"
    first = Table(f"Contacts of {name}", _HEADS, rows[:half], note=_FIRST)
    return TwoStacks((first,), (Table(f"Contacts {span}", _HEADS, rows[half:]),))


def plug_tables(sheet: SheetInput, step: WorkStep) -> tuple[Block, ...]:
    """What a step that closes a plug joins, contact by contact."""
    found = []
    for plug in sheet.build.plugs:
        name = plug_name(plug)
        if step.id == f"plug {name}" and is_tested(sheet, step):
            made = (j for j in sheet.results.netlist.joins if j.by == "plug")
            found.append((name, [j for j in made if j.where == plug.where]))
    return tuple(_beside(sheet.build, name, joins) for name, joins in found if joins)


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
