"""What to lay out before the iron is warm: one line a part, with a box."""

from builder.model.build import Fitted
from builder.model.kinds import Consumable, GroundGear, Tool
from builder.pages.blocks import Block, Section, Span, Tick
from builder.pages.paper.stacks import Stacked
from builder.pages.paper.ticked_lists import TickedLine, ticked_group, ticked_lists
from builder.pages.sheet_input import SheetInput
from builder.pages.tables.part_numbers import GROUPS


def _line(f: Fitted) -> TickedLine:
    """`4 × Kingcup 1404 motor (motor), 1 spare`."""
    many = f"{f.count} × " if f.count != 1 else ""
    spares = f.use.spares or 0
    plural = "spare" if spares == 1 else "spares"
    rest = f", {spares} {plural}" if spares else ""
    return (Tick(f"part-{f.key}"), Span(f"{many}{f.part.name} ({f.key}){rest}"))


def _group(sheet: SheetInput, group: str) -> list[Stacked]:
    """A group's heading and parts; nothing for a group without."""
    elsewhere = Consumable | GroundGear | Tool
    parts = (f for f in sheet.build.parts.values() if not isinstance(f.part, elsewhere))
    mine = [_line(f) for f in parts if group == f.part.GROUP]
    heading = "Battery" if group == "pack" else group.capitalize()
    return ticked_group(f"bench-parts-{group}", heading, mine)


def bench_parts(sheet: SheetInput) -> tuple[Block | Section, ...]:
    """The parts that go onto the aircraft, by group, without prices."""
    return ticked_lists(_group(sheet, group) for group in GROUPS)
