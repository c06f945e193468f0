"""Power: each rail's load against its limit, each load's volts against what it accepts, and the
battery path.
"""

from typing import Literal

from builder.compute.circuit.rails import RailRow, Supplied
from builder.compute.power.path_wires import SupplyWire
from builder.compute.power.power_path import PowerPath
from builder.pages.blocks import Block, Cell, Column, Facts, Row, Section, Span, Table
from builder.pages.numbers import cell, number
from builder.pages.sheet_input import SheetInput
from builder.rounding import rounded


def _rail(row: RailRow) -> Row:
    use = row.use
    tone: Literal["", "bad"] = "bad" if use is not None and use > 1 else ""
    span = f"{rounded(row.low, 2)} to {rounded(row.high, 2)} V"
    limit = f"{rounded(row.limit, 2)} A" if row.limit is not None else "unknown"
    used = f"{rounded(100 * use, 0)} %" if use is not None else "not checked"
    return Row(
        (
            cell(row.source.label),
            cell(f"{rounded(row.volts, 1)} V", note=span),
            Cell((number(row.typical),)),
            Cell((number(row.peak),)),
            cell(limit),
            Cell((Span(used),), tone=tone),
            Cell((number(row.input_current),)),
        )
    )


def _load(s: Supplied) -> Row:
    load = s.load
    accepts = (
        f"{load.low:g} to {load.high:g} V"
        if load.low is not None and load.high is not None
        else "unknown"
    )
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


def _corners(found: PowerPath) -> Table | None:
    """The worst corners of each pack, down to the speed controller."""
    rows = tuple(
        Row(
            (
                cell(f"{c.pack}, {c.name}"),
                Cell((number(c.resting, decimals=1),)),
                Cell((number(c.current, decimals=1),)),
                Cell((number(c.loaded, decimals=1),)),
                Cell((number(c.lost, decimals=2),)),
                Cell((number(c.left, decimals=1),)),
            )
        )
        for c in found.corners
    )
    if not rows:
        return None
    heads = (
        Column("Battery"),
        Column("At rest", align="right"),
        Column("Current", align="right"),
        Column("Under load", align="right"),
        Column("Lost in leads", align="right"),
        Column("At the board", align="right"),
    )
    note = (
        "Current and sag are solved together; a motor's current scales with volts squared from its"
        " bench table."
    )
    return Table("Battery voltage, worst cases", heads, rows, stack=True, note=note)


def _wire(w: SupplyWire) -> Row:
    gauge, share = w.run.wire.gauge, w.lost_share
    beside = f"{w.beside} in parallel" if w.beside > 1 else ""
    lost = f"{rounded(100 * share, 1)} %" if share is not None else ""
    return Row(
        (
            cell(f"{w.run.start} to {w.run.end}", note=beside),
            cell(gauge.label if gauge is not None else "as fitted"),
            Cell((number(w.steady),)),
            Cell((number(w.short),)),
            Cell((number(w.resistance),)),
            Cell((number(w.lost, decimals=3),), note=lost),
        )
    )


def _wires(found: PowerPath) -> Table | None:
    """What each supply wire carries and loses, out and back."""
    rows = [_wire(w) for w in (*found.wires, *found.returns)]
    if not rows:
        return None
    heads = (
        Column("Supply wire or way back"),
        Column("Gauge"),
        Column("Steady", align="right"),
        Column("Peak", align="right"),
        Column("Both wires", align="right"),
        Column("Lost at peak", align="right"),
    )
    note = (
        "Copper at 60 °C with 5 % for the strands. The way back is the wire between the same two"
        " pieces, "
    )
    note += "and at least as long and as thick as the way out."
    return Table("Supply wires", heads, tuple(rows), stack=True, note=note)


def power_section(sheet: SheetInput) -> Section:
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
            Column("From the battery", align="right"),
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
                note=(
                    "What it gets runs over the rail's tolerance, or from landing volts to a full"
                    " battery."
                ),
            )
        )
    facts = [("Standing load of boards, video and radio", Cell((number(found.standing),)))]
    path = sheet.results.path
    blocks += [t for t in (_corners(path), _wires(path)) if t is not None]
    blocks.append(Facts(tuple(facts)))
    return Section("power", "Power", tuple(blocks))
