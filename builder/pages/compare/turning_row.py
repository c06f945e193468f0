"""What it takes to turn one build into another, in figures: money, pieces, joints, hours. The page for
any two makes the same table in the browser.
"""

from builder.compute.compare.difference import Difference
from builder.pages.blocks import Table
from builder.pages.numbers import cell, money
from builder.pages.rows import right_column, table_columns, table_row
from builder.rounding import rounded

NO_ORDER = "not known: the order of work of {} does not stand"
_HOUR = 3600.0


def hours_words(time: tuple[float, float] | None, build: str) -> str:
    """Hours from least to most."""
    if time is None:
        return NO_ORDER.format(build)
    low, high = (rounded(seconds / _HOUR, 1) for seconds in time)
    return f"{low} to {high} h"


def turning_table(found: Difference) -> Table:
    """The way from the first to the second at a glance."""
    way, work = found.conversion, found.work
    cost = money(way.money, at_least=bool(way.cost.lacks))
    keep, left = (sum(n for _, n in side) for side in (way.keep, way.left_over))
    bought = sum(p.needed for p in way.buy)
    rows = (
        table_row("Money for what has to be bought", cost, anchor="turn-cost"),
        table_row("Pieces to buy", str(bought), anchor="turn-buy"),
        table_row("Pieces that carry over", str(keep), anchor="turn-keep"),
        table_row("Pieces left over", str(left), anchor="turn-left"),
        table_row("Joints to unsolder", str(work.joints_off), anchor="turn-off"),
        table_row("Joints to solder", str(work.joints_on), anchor="turn-on"),
        table_row(
            "Parts to take off, and to put on",
            cell(f"{work.parts_off}, {work.parts_on}"),
            anchor="turn-parts",
        ),
        table_row("Gates to go through again", str(work.gates), anchor="turn-gates"),
        table_row("Hours of work", hours_words(work.time, found.second), anchor="turn-hours"),
    )
    heads = table_columns("What it takes", right_column("Amount"))
    return Table(f"From {found.first} to {found.second}", heads, rows, "turn", stack=True)
