"""Wiring: pinout by board in physical order, serial ports, the list of wires to cut."""

import re
from collections.abc import Mapping

from builder.compute.circuit.pinout import BoardPins, Pinout, SerialLine
from builder.model.build import Contact
from builder.model.kinds import Motor
from builder.pages.blocks import (
    Block,
    Cell,
    Column,
    Illustration,
    Paragraph,
    Row,
    Section,
    Side,
    Span,
    Swatch,
    Table,
    Tick,
)
from builder.pages.drawings.bundles import bundle_overview
from builder.pages.drawings.wiring_drawing import drawings_of
from builder.pages.numbers import cell
from builder.pages.rows import right_column, table_columns, table_row
from builder.pages.sheet_input import SheetInput
from builder.pages.views.board_wires import board_wires
from builder.pages.views.wire_ends import WireEnd, wire_ends
from builder.pages.wire_words import ROLE_WORDS, contact_span, wire_cell
from builder.pages.work.net_marks import marked_drawings, wire_leads
from builder.rounding import rounded

_COLUMNS = table_columns(
    "Contact",
    Column("Place", plain=True),
    Column("What it is", plain=True),
    "To",
    Column("Wire", plain=True),
    Column("Done", align="centre"),
)


_NO_ID_LETTER = re.compile("[^A-Za-z0-9-]")


def _pin_anchor(contact: Contact) -> str:
    """The id of a contact's row: what is printed on a board may be anything, so odd characters go
    by number.
    """
    plain = f"pin-{contact}".replace(".", "-").replace("+", "plus").replace("_", "-")
    return _NO_ID_LETTER.sub(lambda c: f"_{ord(c[0]):x}_", plain)


def board_table(sheet: SheetInput, board: BoardPins, *, all_contacts: bool = True) -> Table:
    """The contacts of one board, one row a wire."""
    rows = []
    for pin in board.rows:
        anchor = _pin_anchor(pin.contact)
        words = ROLE_WORDS[pin.pad.role] + (
            f", port {pin.pad.serial}" if pin.pad.serial is not None else ""
        )
        words += f", {pin.pad.rail}" if pin.pad.rail else ""
        words += " (assumed from its print)" if pin.pad.assumed else ""
        if not pin.joins:
            if all_contacts:
                rows.append(
                    table_row(
                        Cell((Span(pin.contact.pad, code=True),)),
                        pin.place,
                        words,
                        Cell((Span("free"),), tone="quiet"),
                        Cell(),
                        Cell(),
                        anchor=anchor,
                    )
                )
            continue
        for i, (join, other) in enumerate(zip(pin.joins, pin.others, strict=True)):
            rows.append(
                table_row(
                    Cell((Span(pin.contact.pad, code=True),)),
                    pin.place,
                    words,
                    contact_span(other),
                    wire_cell(join, sheet.build),
                    Tick("", str(pin.contact)),
                    anchor=f"{anchor}-{i + 1}" if i else anchor,
                )
            )
    return Table(f"Contacts of {board.board}", _COLUMNS, tuple(rows), stack=True)


def _motors(sheet: SheetInput, found: Pinout) -> Table | None:
    rows = []
    for board in found.boards:
        if isinstance(sheet.build.parts[board.part].part, Motor):
            for pin in board.rows:
                for i, (join, other) in enumerate(zip(pin.joins, pin.others, strict=True)):
                    rows.append(
                        table_row(
                            contact_span(pin.contact),
                            contact_span(other),
                            wire_cell(join, sheet.build),
                            Tick("", str(pin.contact)),
                            anchor=_pin_anchor(pin.contact) + (f"-{i + 1}" if i else ""),
                        )
                    )
    if not rows:
        return None
    return Table(
        "Motors",
        table_columns("Lead", "To", Column("Wire", plain=True), Column("Done", align="centre")),
        tuple(rows),
        stack=True,
        note=(
            "Which of the three leads goes to which contact of a channel only sets the direction of"
            " rotation."
        ),
    )


def _serial_row(s: SerialLine) -> Row:
    wired = Cell((Span(", ".join(s.serves)),))
    if not s.serves:
        wired = Cell((Span("nothing wired"),), tone="quiet")
    speaks = f" ({s.speaks})" if s.speaks else ""
    port, set_to = f"{s.board}, port {s.port}", f"{s.set_to}{speaks}"
    before = map(cell, (port, s.sends or "none", s.listens or "none"))
    return Row((*before, wired, cell(set_to)))


def serial_table(found: Pinout) -> Table | None:
    """What is wired to each serial port, and what it is set to serve."""
    rows = tuple(map(_serial_row, found.serial))
    if not rows:
        return None
    return Table(
        "Serial ports",
        table_columns("Port", "Sends", "Listens", "Wired to", "Set to serve"),
        rows,
        stack=True,
    )


def cut_table(found: Pinout) -> Table | None:
    """Wires to cut by gauge and colour, longest first, with totals."""
    rows = []
    for cut in found.cuts:
        head = Cell((Span(f"{cut.gauge} "), Swatch(cut.colour, cut.letters)))
        rows.append(Row((head,), kind="group"))
        rows += [
            table_row(what, f"{rounded(1000 * length, 0)} mm", Tick(f"cut-{what}", "cut"))
            for length, what in cut.pieces
        ]
        rows.append(
            table_row("together", f"{rounded(1000 * cut.total, 0)} mm", Cell(), kind="subtotal")
        )
    if not rows:
        return None
    return Table(
        "Wires to cut",
        table_columns("From and to", right_column("Length"), Column("Cut", align="centre")),
        tuple(rows),
        note=(
            "Cut at the bench, not from this list alone: dry-fit first. A lead can be shortened,"
            " never lengthened."
        ),
    )


def _board_blocks(
    sheet: SheetInput, board: BoardPins, ends: Mapping[Contact, tuple[WireEnd, ...]]
) -> tuple[Block, ...]:
    """The contacts of a board, beside the board with its wires where its edges are known."""
    table = board_table(sheet, board)
    drawing = board_wires(sheet.build, board.board, sheet.build.parts[board.part], ends)
    return (table,) if drawing is None else (Side(Illustration(drawing, ""), table),)


def wiring(sheet: SheetInput) -> Section:
    """All wiring tables, with the drawing first."""
    found = sheet.results.pinout
    blocks: list[Block | Section] = []
    if not found.boards:
        return Section("wiring", "Wiring", ())
    blocks.append(
        Paragraph(
            (
                Span(
                    "The tables name contacts by the edges of their own board: seen onto its top,"
                    " its arrow up, however it is mounted. Sockets are seen into the mating face"
                    " with the latch up. Drawings show each board as it is mounted: at each wire the"
                    " letters of its colour, its far end, and in brackets its step. A square is the"
                    " first contact of a socket."
                ),
            ),
            quiet=True,
        )
    )
    blocks += bundle_overview(sheet.build, sheet.results.netlist)
    blocks += marked_drawings(sheet, drawings_of(sheet.build, sheet.results.netlist))
    ends = wire_ends(sheet.build, sheet.results.netlist, wire_leads(sheet))
    for board in found.boards:
        part = sheet.build.parts[board.part].part
        if not isinstance(part, Motor) and len(board.rows) > 2:
            anchor = f"board-{board.board}".replace(".", "-")
            own = _board_blocks(sheet, board, ends)
            blocks.append(Section(anchor, f"{part.name} ({board.board})", own, 3))
    motors, serial, cuts = _motors(sheet, found), serial_table(found), cut_table(found)
    for anchor, heading, table in (
        ("motors", "Motors", motors),
        ("serial", "Serial ports", serial),
        ("cuts", "Wires to cut", cuts),
    ):
        if table is not None:
            blocks.append(Section(anchor, heading, (table,), 3))
    return Section("wiring", "Wiring", tuple(blocks))
