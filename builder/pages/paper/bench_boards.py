"""Boards for paper: each drawing beside the contacts that are wired; a board of many has a page,
smaller ones share.
"""

from builder.compute.circuit.pinout import BoardPins
from builder.model.kinds import Motor
from builder.pages.blocks import Cell, Column, Row, Section, Span, Table, Tick
from builder.pages.drawings.board_drawing import drawn_beside
from builder.pages.sheet_input import SheetInput
from builder.pages.wire_words import ROLE_WORDS, contact_span, wire_cell

_COLUMNS = (Column("Contact"), Column("Goes to"), Column("Wire"), Column("Done", align="centre"))
_FEWEST = 3  # contacts from which a piece is drawn
_MANY = 12  # contacts from which it gets a page of its own


def _rows(sheet: SheetInput, board: BoardPins) -> list[Row]:
    rows = []
    for pin in board.rows:
        words = ", ".join(w for w in (ROLE_WORDS[pin.pad.role], pin.pad.rail or "") if w)
        for i, (join, other) in enumerate(zip(pin.joins, pin.others, strict=True)):
            tick = Tick(f"pin-{pin.contact}-{i}", f"{pin.contact} done")
            contact = Cell((Span(pin.contact.pad, code=True), Span(f" {words}")))
            rows.append(
                Row(
                    (
                        contact,
                        Cell((contact_span(other),)),
                        wire_cell(join, sheet.build),
                        Cell((tick,)),
                    )
                )
            )
    return rows


def bench_boards(sheet: SheetInput) -> list[Section]:
    """A section a board that has wires: the large ones each on its own page, then the others
    together.
    """
    large, small = [], []
    for board in sheet.results.pinout.boards:
        part = sheet.build.parts[board.part].part
        rows = _rows(sheet, board)
        if isinstance(part, Motor) or len(board.rows) < _FEWEST or not rows:
            continue
        table = Table(f"Contacts of {board.board}", _COLUMNS, tuple(rows))
        shown = drawn_beside(sheet.build, sheet.results.netlist, board.board, table)
        heading = f"{part.name} ({board.board})"
        anchor = f"bench-{board.board}".replace(".", "-")
        if len(rows) >= _MANY:
            large.append(Section(anchor, heading, (shown,), break_before=True))
        else:
            small.append(Section(anchor, heading, (shown,), level=3))
    rest = (
        [Section("bench-small", "What hangs on them", tuple(small), break_before=True)]
        if small
        else []
    )
    return [*large, *rest]
