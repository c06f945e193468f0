"""A gate on paper: one piece that is not torn, with what holds at every gate said once before the
first.
"""

from dataclasses import replace

from builder.compute.power_up.power_gates import Gate
from builder.pages.blocks import (
    Block,
    Bullets,
    Cell,
    GateBar,
    Paragraph,
    Row,
    Section,
    SectionRole,
    Span,
    Table,
    TwoStacks,
    WriteIn,
)
from builder.pages.paper.reading_groups import grouped_readings
from builder.pages.paper.stacks import in_halves, lines_across
from builder.pages.sections.first_power_up import first_power_up
from builder.pages.sheet_input import SheetInput
from builder.pages.work.gate_procedure import gate_blocks, trip_notice
from builder.pages.work.plan_items import plan_items

_BUILT = "As built"  # which begins what came back from the bench
_PAGE = 66  # lines across a page that a gate may take and stay whole


def before_gates(sheet: SheetInput) -> Section:
    """What holds at every gate: the warning, the supply, the limiter, what to do when it trips."""
    said = tuple(b for b in first_power_up(sheet).blocks if not isinstance(b, Section))
    return Section("first-power-up", "At every gate", said, 3, role="whole")


def _built(bar: GateBar) -> list[Block]:
    """What came back from the bench at this gate."""
    _, mark, said = bar.text.partition(_BUILT)
    return [Paragraph((Span(f"{mark}{said}"),))] if mark else []


def _split(
    sheet: SheetInput, gate: Gate
) -> tuple[list[Block], list[Block | Section], list[Section]]:
    """What heads a gate, how to go without a supply, and its stages."""
    blocks = gate_blocks(sheet, gate)
    stages = [b for b in blocks if isinstance(b, Section)]
    paragraphs: list[Block | Section] = [b for b in blocks if isinstance(b, Paragraph)]
    head: list[Block] = [b for b in blocks if not isinstance(b, Section | Paragraph)]
    return head, paragraphs, stages


def _under_power(on: Section) -> Section:
    """How power goes on, its lines in two columns, then the volts across the page."""
    blocks: list[Block | Section] = []
    for block in on.blocks:
        if isinstance(block, Bullets):
            half = (len(block.items) + 1) // 2
            stacks = Bullets(block.items[:half]), Bullets(block.items[half:])
            blocks.append(TwoStacks(stacks[:1], stacks[1:]))
        else:
            blocks.append(_noted(block))
    return replace(on, blocks=tuple(blocks))


def _noted(block: Block | Section) -> Block | Section:
    """A table with the notes of its first column below it, each once: in half a page they would
    make its rows high.
    """
    if isinstance(block, Section):
        return replace(block, blocks=tuple(map(_noted, block.blocks)))
    if not isinstance(block, Table):
        return block
    by_note: dict[str, list[str]] = {}
    for row in block.rows:
        first = row.cells[0]
        if first.note:
            by_note.setdefault(first.note, []).append(_plain(first))
    said = [f"{', '.join(names)}: {note}." for note, names in by_note.items()]
    return replace(
        block,
        caption="",
        rows=tuple(map(_unnoted, block.rows)),
        note=" ".join([*said, block.note]).strip(),
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


def gate_panel(sheet: SheetInput, gate: Gate, bar: GateBar) -> Section:
    """One gate: what it needs and the readings without power across the page, then in two columns
    how power goes on and off.
    """
    head, limiter, (off, on, *rest) = _split(sheet, gate)
    readings = grouped_readings(gate)
    kept = [b for b in off.blocks if not isinstance(b, Table)]
    off = replace(off, blocks=(*kept, readings) if readings is not None else tuple(kept))
    trip = replace(trip_notice(), pieces=(Span("Then as said under 'At every gate'."),))
    last = in_halves((*rest, trip))
    anchor, heading = f"gate-{gate.letter.casefold()}", f"Gate {gate.letter}: {gate.title}"
    body = (*head, *limiter, *_built(bar), off, _under_power(on), last)
    role: SectionRole = "gate whole" if sum(map(lines_across, body)) < _PAGE else "gate"
    return Section(anchor, heading, body, 3, role=role)


def gate_panels(sheet: SheetInput) -> tuple[Section, ...]:
    """All gates in order, with what holds at every one before them; () for a build without."""
    bars = {b.title: b for b in plan_items(sheet, paper=True) if isinstance(b, GateBar)}
    mine = [g for g in sheet.results.gates if f"Gate {g.letter}" in bars]
    if not mine:
        return ()
    return (before_gates(sheet), *(gate_panel(sheet, g, bars[f"Gate {g.letter}"]) for g in mine))
