"""Power: each rail's load against its limit, each load's volts against what it accepts, and the
battery path.
"""

from typing import Literal

from builder.compute.circuit.rails import RailRow, Supplied
from builder.compute.power.pack_corners import PackCorner
from builder.compute.power.path_wires import SupplyWire
from builder.compute.power.power_path import PowerPath
from builder.pages.blocks import Block, Cell, Facts, Row, Section, Span, Table
from builder.pages.numbers import cell, number
from builder.pages.rows import right_column, table_columns, table_row
from builder.pages.sheet_input import SheetInput
from builder.pages.tables.short_circuit_words import short_circuit_words
from builder.rounding import rounded


def _rail(row: RailRow) -> Row:
    use = row.use
    tone: Literal["", "bad"] = "bad" if use is not None and use > 1 else ""
    span = f"{rounded(row.low, 2)} to {rounded(row.high, 2)} V"
    limit = f"{rounded(row.limit, 2)} A" if row.limit is not None else "unknown"
    used = f"{rounded(100 * use, 0)} %" if use is not None else "not checked"
    return table_row(
        row.source.label,
        cell(f"{rounded(row.volts, 1)} V", note=span),
        number(row.typical),
        number(row.peak),
        limit,
        Cell((Span(used),), tone=tone),
        number(row.input_current),
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
    return table_row(
        load.part,
        load.source.label if load.source else "nothing",
        accepts,
        gets,
        number(s.typical),
        number(s.peak),
    )


def _corner(c: PackCorner) -> Row:
    tenths = [number(f, decimals=1) for f in (c.resting, c.current, c.loaded)]
    lost, left = number(c.lost, decimals=2), number(c.left, decimals=1)
    return table_row(f"{c.pack}, {c.name}", *tenths, lost, left)


def _corners(found: PowerPath) -> Table | None:
    """The worst corners of each pack, down to the speed controller."""
    rows = tuple(map(_corner, found.corners))
    if not rows:
        return None
    heads = table_columns(
        "Battery",
        right_column("At rest"),
        right_column("Current"),
        right_column("Under load"),
        right_column("Lost in leads"),
        right_column("At the board"),
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
    return table_row(
        cell(f"{w.run.start} to {w.run.end}", note=beside),
        gauge.label if gauge is not None else "as fitted",
        number(w.steady),
        number(w.short),
        number(w.resistance),
        Cell((number(w.lost, decimals=3),), note=lost),
    )


def _wires(found: PowerPath) -> Table | None:
    """What each supply wire carries and loses, out and back."""
    rows = [_wire(w) for w in (*found.wires, *found.returns)]
    if not rows:
        return None
    heads = table_columns(
        "Supply wire or way back",
        "Gauge",
        right_column("Steady"),
        right_column("Peak"),
        right_column("Both wires"),
        right_column("Lost at peak"),
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
        heads = table_columns(
            "Rail",
            right_column("Volts"),
            right_column("Typical load"),
            right_column("Peak load"),
            right_column("Limit"),
            right_column("Used"),
            right_column("From the battery"),
        )
        blocks.append(Table("Rails", heads, tuple(_rail(r) for r in found.rails), stack=True))
    loads = (*found.on_pack, *(s for r in found.rails for s in r.supplied))
    if loads:
        load_heads = table_columns(
            "Load", "Fed from", "Accepts", "Gets", right_column("Typical"), right_column("Peak")
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
    shorted = short_circuit_words(path.short)
    facts += [("Dead short", shorted)] if shorted is not None else []
    blocks += [t for t in (_corners(path), _wires(path)) if t is not None]
    blocks.append(Facts(tuple(facts)))
    return Section("power", "Power", tuple(blocks))
