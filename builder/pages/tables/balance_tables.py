"""Balance as tables: where it balances with each pack, where the pack would trim it, and what each
motor carries.
"""

from builder.compute.figures.figure import Figure
from builder.compute.weight.balance import Balance
from builder.pages.blocks import Block, Cell, Column, Inline, Paragraph, Section, Span, Table
from builder.pages.numbers import number, percent
from builder.pages.rows import right_column, table_columns, table_row


def _offsets(found: Balance) -> Table:
    columns = table_columns(
        "Flown with",
        right_column("Ahead of the rotors' centre"),
        right_column("Left of it"),
        right_column("Battery sits at"),
        right_column("Move the battery to"),
    )
    rows = []
    for p in found.packs:
        along, across, trim = (number(f, spread=True) for f in (p.along, p.across, p.trim_along))
        rows.append(table_row(p.pack, along, across, number(p.pack_along), trim))
    note = (
        "Forward and left are positive, from the middle of the frame; a minus is rearward or right."
    )
    return Table("Centre of mass", columns, tuple(rows), anchor="balance-table", note=note)


def _shares(found: Balance) -> Table | None:
    motors = list(
        dict.fromkeys(k for p in found.packs for k, s in p.shares.items() if isinstance(s, Figure))
    )
    if not motors:
        return None
    columns = (Column("Flown with"), *(Column(f"Motor {k}", align="right") for k in motors))
    rows = tuple(
        table_row(p.pack, *(Cell((percent(p.shares[k], 1),)) for k in motors)) for p in found.packs
    )
    return Table("Share of the weight at hover", columns, rows, anchor="hover-shares")


def balance_section(found: Balance | None) -> Section | None:
    """The balance; None where no places are given."""
    if found is None:
        return None
    blocks: list[Block] = []
    if found.packs:
        blocks.append(_offsets(found))
        shares = _shares(found)
        blocks += [shares] if shares is not None else []
    lead: list[Inline] = [Span("Parts with a place weigh "), number(found.placed), Span(".")]
    if found.left_out:
        lead.append(Span(f" Left out, for want of a place: {', '.join(found.left_out)}."))
    blocks.append(Paragraph(tuple(lead), quiet=True))
    return Section("balance", "Balance", tuple(blocks), level=3)
