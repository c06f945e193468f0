"""A gate on paper: one piece that is not torn, with what holds at every gate said once before the
first.
"""

from dataclasses import replace

from builder.compute.order.work_order import Cycle
from builder.compute.power_up.gate import Gate
from builder.pages.blocks import (
    Block,
    Bullets,
    Cell,
    Facts,
    GateBar,
    Paragraph,
    Row,
    Section,
    Span,
    Table,
    TwoStacks,
    WriteIn,
)
from builder.pages.paper.reading_groups import grouped_readings
from builder.pages.paper.stacks import in_halves, lines_across
from builder.pages.sections.first_power_up import first_power_up
from builder.pages.sheet_input import SheetInput
from builder.pages.work.gate_lines import SIGHT, end, limiter
from builder.pages.work.gate_procedure import PROBES, gate_blocks, meter_band, trip_notice
from builder.pages.work.plan_items import plan_items

_Blocks = tuple[Block | Section, ...]
_EXPECTED = "Current to expect"  # which paper says where it is read
_SHORTER = {"Supply set to": "Supply"}
_BUILT = "As built"  # which begins what came back from the bench
_PAGE = 76  # lines across a page that a gate may take and stay whole


def before_gates(sheet: SheetInput) -> Section:
    """What holds at every gate: the warning, the supply, the limiter, the probes, what to do when
    the limit trips.
    """
    said = list(first_power_up(sheet, paper=True).blocks)
    limits = f"See at a limiter: {SIGHT} the volts are as the gate says."
    said.insert(-1, Paragraph((Span(" ".join((limits, PROBES, meter_band()))),)))
    return Section("first-power-up", "At every gate", tuple(said), 3, role="whole")


def _built(bar: GateBar) -> list[Block]:
    """What came back from the bench at this gate."""
    _, mark, said = bar.text.partition(_BUILT)
    return [Paragraph((Span(f"{mark}{said}"),))] if mark else []


def _split(sheet: SheetInput, gate: Gate) -> tuple[list[Block], list[Section]]:
    """What heads a gate, and its stages."""
    blocks = gate_blocks(sheet, gate)
    stages = [b for b in blocks if isinstance(b, Section)]
    head = (b for b in blocks if not isinstance(b, Section | Paragraph))
    return [_said_once(b) for b in head], stages


def _said_once(block: Block) -> Block:
    """Facts without the current, whose band stands beside the room for what is read."""
    if not isinstance(block, Facts):
        return block
    items = (i for i in block.items if i[0] != _EXPECTED)
    return replace(block, items=tuple((_SHORTER.get(name, name), cell) for name, cell in items))


def _short(block: Block) -> Block:
    """A list in two columns."""
    if not isinstance(block, Bullets) or len(block.items) < 2:
        return block
    halves = in_halves([Bullets((item,)) for item in block.items])
    first = sum(len(b.items) for b in halves.first if isinstance(b, Bullets))
    stacks = Bullets(block.items[:first]), Bullets(block.items[first:])
    return TwoStacks(stacks[:1], stacks[1:])


def _in_columns(stage: Section) -> Section:
    """A stage whose lists stand in two columns."""
    return replace(stage, blocks=tuple(map(_stage_block, stage.blocks)))


def _stage_block(block: Block | Section) -> Block | Section:
    return _noted(block) if isinstance(block, Section) else _short(_noted_table(block))


def _noted(section: Section) -> Section:
    return replace(section, blocks=tuple(map(_stage_block, section.blocks)))


def _noted_table(block: Block) -> Block:
    """A table with the notes of its first column below it, each once: in half a page they would
    make its rows high.
    """
    if not isinstance(block, Table):
        return block
    by_note: dict[str, list[str]] = {}
    for row in block.rows:
        first = row.cells[0]
        if first.note:
            by_note.setdefault(first.note, []).append(_plain(first))
    said = [f"{', '.join(names)}: {note}." for note, names in by_note.items()]
    kept = block.note.removesuffix(f" {meter_band()}")
    return replace(
        block,
        caption="",
        rows=tuple(map(_unnoted, block.rows)),
        note=" ".join([*said, kept]).strip(),
    )


def _unnoted(row: Row) -> Row:
    """A row whose band stands with what is expected, not with what is read."""
    cells = [replace(row.cells[0], note=""), *row.cells[1:]]
    for at in range(1, len(cells)):
        found = cells[at].pieces
        box = found[0] if found and isinstance(found[0], WriteIn) else None
        if box is not None and box.expect:
            cells[at] = replace(cells[at], pieces=(replace(box, expect=""), *found[1:]))
            band = Span(f" ({box.expect})")
            cells[at - 1] = replace(cells[at - 1], pieces=(*cells[at - 1].pieces, band))
    return replace(row, cells=tuple(cells))


def _plain(cell: Cell) -> str:
    return "".join(p.text for p in cell.pieces if isinstance(p, Span))


def gate_panel(sheet: SheetInput, gate: Gate, bar: GateBar) -> tuple[Section, ...]:
    """One gate: what it needs, the readings without power, then how power goes on and off, its
    lists in two columns. One that is longer than a page goes on below a heading of its own where
    its power comes on.
    """
    head, (off, *stages) = _split(sheet, gate)
    without = limiter(gate, sight=False)
    readings = grouped_readings(gate)
    kept = [b for b in off.blocks if not isinstance(b, Table)]
    off = replace(off, blocks=(*kept, readings) if readings is not None else tuple(kept))
    ending = replace(stages[-1], blocks=(end(sheet.build, gate, formula=False),))
    trip = replace(trip_notice(sheet), pieces=(Span("Then see 'At every gate'."),))
    anchor, heading = f"gate-{gate.letter.casefold()}", f"Gate {gate.letter}: {gate.title}"
    first, *then = (_in_columns(s) for s in (off, *stages[:-1], ending))
    opening: _Blocks = (*head, without, *_built(bar), first)
    rest: _Blocks = (*then, trip)
    if _fits((*opening, *rest)):
        return (Section(anchor, heading, (*opening, *rest), 3, role="gate whole"),)
    again = f"Gate {gate.letter}, continued: {gate.title}"
    return (
        Section(anchor, heading, opening, 3, role="gate whole" if _fits(opening) else "gate"),
        Section(f"{anchor}-continued", again, rest, 3, role="gate whole"),
    )


def _fits(blocks: _Blocks) -> bool:
    """Whether blocks fit on a page."""
    return sum(map(lines_across, blocks)) < _PAGE


def rules_of_gates(sheet: SheetInput) -> tuple[Section, ...]:
    """What holds at every gate, as a page of its own kind before the work begins: beside the first
    gate it left most of a page empty. () for a build without gates.
    """
    if isinstance(sheet.results.order, Cycle) or not sheet.results.gates:
        return ()
    return (replace(before_gates(sheet), level=2),)


def gate_panels(sheet: SheetInput) -> tuple[Section, ...]:
    """All gates in order, with what holds at every one before them; () for a build without."""
    bars = {b.title: b for b in plan_items(sheet, paper=True) if isinstance(b, GateBar)}
    mine = [g for g in sheet.results.gates if f"Gate {g.letter}" in bars]
    if not mine:
        return ()
    panels = (p for g in mine for p in gate_panel(sheet, g, bars[f"Gate {g.letter}"]))
    return (before_gates(sheet), *panels)
