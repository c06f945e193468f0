"""Wiring, order of work and setup of two builds, row by row: what differs, and what is alike when
it is asked for.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from builder.compute.circuit.contacts import Join
from builder.compute.compare.difference import Difference, LineChange
from builder.compute.compare.order_difference import StepChange
from builder.compute.compare.wiring_difference import JoinChange
from builder.compute.figures.told import WordsOrTold
from builder.model.build import Build
from builder.pages.blocks import Block, Cell, Column, Fold, Paragraph, Row, Span, Table
from builder.pages.numbers import cell
from builder.pages.rows import table_columns, table_row
from builder.pages.told_words import told_words
from builder.pages.wire_words import wire_cell

OPEN = 8  # rows that stand open; a page is to print on two sheets
_NONE = Cell((Span("none"),), tone="quiet")


def _open_or_closed(heading: str, table: Table) -> Block:
    """A table of what differs: open while it is short."""
    return (
        table
        if len(table.rows) <= OPEN
        else Fold(f"{len(table.rows)} {heading} that differ", (table,), paper=False)
    )


def _laid(
    heading: str, same: str, heads: tuple[Column, ...], rows: Sequence[Row], alike: Sequence[Row]
) -> list[Block]:
    """What differs, closed where it is long, and below it what is alike, closed."""
    out: list[Block] = []
    if not rows:
        out.append(Paragraph((Span(same),)))
    else:
        out.append(
            _open_or_closed(
                heading, Table(f"{heading} that differ", heads, tuple(rows), stack=True)
            )
        )
    if alike:
        table = Table(f"{heading} that are alike", heads, tuple(alike), stack=True)
        out.append(
            Fold(f"{len(alike)} {heading} that are alike", (table,), paper=False, alike=True)
        )
    return out


def _join(join: Join | None, build: Build) -> Cell:
    if join is None:
        return _NONE
    made = wire_cell(join, build)
    return made if made.pieces else cell("wire")


def _wire_row(change: JoinChange, a: Build, b: Build) -> Row:
    net = (
        change.nets[0]
        if change.nets[0] == change.nets[1]
        else " / ".join(n for n in change.nets if n)
    )
    ends = Cell((Span(change.ends[0], code=True), Span(" to "), Span(change.ends[1], code=True)))
    return table_row(
        ends, Cell((Span(net, code=True),)), _join(change.first, a), _join(change.second, b)
    )


def wiring_blocks(found: Difference, a: Build, b: Build) -> tuple[Block, ...]:
    """Every wire and plugged contact by its pads and net, and how plugs lie."""
    heads = table_columns("From pad to pad", "Net", a.name, b.name)
    rows = [_wire_row(c, a, b) for c in found.wiring if c.differs]
    alike = [_wire_row(c, a, b) for c in found.wiring if not c.differs]
    plugs = [p for p in found.plugs if p.differs]
    out = _laid("wires and plugged contacts", "The wiring is the same.", heads, rows, alike)
    if plugs:
        lines = tuple(table_row(p.text, _has(p.first), _has(p.second)) for p in plugs)
        table = Table("Plugs that differ", table_columns("Plug", a.name, b.name), lines, stack=True)
        out.insert(1, _open_or_closed("plugs", table))
    return tuple(out)


def _has(there: bool) -> Cell:
    return cell("yes") if there else _NONE


def _number(step: tuple[int, WordsOrTold] | None) -> Cell:
    if step is None:
        return _NONE
    return cell(str(step[0]) if step[0] else "gate")


def steps_as_shown(order: Iterable[StepChange]) -> list[StepChange]:
    """The steps with their numbers rounded: words that read the same are no difference."""
    return [replace(c, first=_shown(c.first), second=_shown(c.second)) for c in order]


def _shown(step: tuple[int, WordsOrTold] | None) -> tuple[int, WordsOrTold] | None:
    return None if step is None else (step[0], told_words(step[1]))


def _step_row(change: StepChange, b: str) -> Row:
    text = told_words((change.first or change.second or (0, ""))[1])
    notes = []
    if (
        change.first is not None
        and change.second is not None
        and change.first[1] != change.second[1]
    ):
        notes.append(f"in {b}: {told_words(change.second[1])}")
    if change.moved:
        notes.append("comes at another time")
    return table_row(
        cell(text, note="; ".join(notes)), _number(change.first), _number(change.second)
    )


def order_blocks(found: Difference) -> tuple[Block, ...]:
    """Every step with its number in each build."""
    heads = table_columns(
        "Step", Column(found.first, "no.", "right"), Column(found.second, "no.", "right")
    )
    steps = steps_as_shown(found.order)
    rows = [_step_row(c, found.second) for c in steps if c.differs]
    alike = [_step_row(c, found.second) for c in steps if not c.differs]
    return tuple(_laid("steps", "The steps are the same.", heads, rows, alike))


def _settings(lines: Iterable[LineChange]) -> list[Row]:
    """Lines `where: what` as rows: where it is set, what the first says, what the second says."""
    said: dict[str, tuple[list[str], list[str]]] = {}
    for line in lines:
        place, _, what = line.text.partition(": ")
        both = said.setdefault(place, ([], []))
        for there, words in zip((line.first, line.second), both, strict=True):
            if there:
                words.append(what)
    return [
        table_row(place, *(cell("; ".join(words)) if words else _NONE for words in both))
        for place, both in said.items()
    ]


def setup_blocks(found: Difference) -> tuple[Block, ...]:
    """Every setting, what each build says of it."""
    heads = table_columns("Setting", found.first, found.second)
    rows = _settings(line for line in found.setup if line.differs)
    alike = _settings(line for line in found.setup if not line.differs)
    return tuple(_laid("settings", "The setup is the same.", heads, rows, alike))
