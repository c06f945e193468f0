"""Power: each rail's load against its limit, each load's volts against what it accepts, and the battery path."""

from builder.compute.rails import RailRow, Supplied
from builder.pages.blocks import Block, Cell, Column, Facts, Row, Section, Span, Table
from builder.pages.numbers import cell, number, rounded
from builder.pages.sheet_input import SheetInput


def _rail(row: RailRow) -> Row:
    use = row.use
    tone = "" if use is None else "bad" if use > 1 else ""
    return Row(
        (
            cell(row.source.label),
            cell(f"{rounded(row.volts, 1)} V"),
            Cell((number(row.typical),)),
            Cell((number(row.peak),)),
            cell(f"{rounded(row.limit, 2)} A" if row.limit is not None else "unknown"),
            Cell((Span(f"{rounded(100 * use, 0)} %" if use is not None else "not judged"),), tone=tone),  # type: ignore[arg-type]
            Cell((number(row.input_current),)),
        )
    )


def _load(s: Supplied) -> Row:
    load = s.load
    accepts = f"{load.low:g} to {load.high:g} V" if load.low is not None and load.high is not None else "unknown"
    gets = (
        f"{rounded(s.lowest, 2)} to {rounded(s.highest, 2)} V"
        if s.lowest is not None and s.highest is not None
        else "unknown"
    )
    return Row(
        (
            cell(load.part),
            cell(load.source.label if load.source else "nothing"),
            cell(accepts),
            cell(gets),
            Cell((number(s.typical),)),
            Cell((number(s.peak),)),
        )
    )


def power(sheet: SheetInput) -> Section:
    """Rails and loads, then what the battery path carries."""
    found = sheet.results.power
    blocks: list[Block] = []
    if found.rails:
        heads = (
            Column("Rail"),
            Column("Volts", align="right"),
            Column("Typical load", align="right"),
            Column("Peak load", align="right"),
            Column("Limit", align="right"),
            Column("Used", align="right"),
            Column("From the pack", align="right"),
        )
        blocks.append(Table("Rails", heads, tuple(_rail(r) for r in found.rails), stack=True))
    loads = (*found.on_pack, *(s for r in found.rails for s in r.supplied))
    if loads:
        load_heads = (
            Column("Load"),
            Column("Fed from"),
            Column("Accepts"),
            Column("Gets"),
            Column("Typical", align="right"),
            Column("Peak", align="right"),
        )
        blocks.append(
            Table(
                "Loads",
                load_heads,
                tuple(_load(s) for s in loads),
                stack=True,
                note="What it gets runs over the rail's tolerance, or from landing volts to a full pack.",
            )
        )
    facts = [("Standing load", Cell((number(found.standing),)))]
    for key, flown in sheet.results.flight.packs.items():
        facts.append((f"Full throttle, {key}", Cell((number(flown.peak_current, decimals=0),))))
        facts.append((f"Volts then, {key}", Cell((number(flown.sag, decimals=1),))))
    blocks.append(Facts(tuple(facts)))
    return Section("power", "Power", tuple(blocks))
