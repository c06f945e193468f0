"""Rows of a comparison's tables. The page for any two makes the same rows in the browser, from
compare_data.
"""

from builder.compute.compare.difference import Difference, Pair
from builder.compute.compare.part_changes import PartChange
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown
from builder.model.values.money_text import Money
from builder.pages.blocks import Block, Cell, Column, Fold, Number, Paragraph, Row, Span, Table
from builder.pages.numbers import cell, money, number
from builder.pages.rows import right_column, table_columns, table_row
from builder.rounding import counted

HOW = {
    "same": "as before",
    "swapped": "swapped",
    "added": "added",
    "dropped": "dropped",
    "recounted": "another number",
}
TOO_SMALL = "too close to call"
LEFT_OUT = "leaves out what is not known"


def _of(figure: MaybeFigure, build: str) -> Number:
    made = number(figure, steady=True)
    return Number(made.value, made.unit, made.spread, made.anchor, made.basis, made.prefix, build)


def _signed(change: Figure) -> Number:
    shown = number(change, spread=True, steady=True)
    return Number(("+" if change.value > 0 else "") + shown.value, shown.unit, shown.spread)


def change_cell(pair: Pair) -> Cell:
    """The difference with its sign and spread, and words where it says nothing."""
    if isinstance(pair.change, Unknown):
        return cell("unknown")
    notes = []
    if not (pair.real or pair.alike):
        notes.append(TOO_SMALL)
    if not pair.whole:
        notes.append(LEFT_OUT)
    return Cell((_signed(pair.change),), "; ".join(notes))


def figure_row(pair: Pair, a: str, b: str) -> Row:
    """A figure of both builds and its difference."""
    cells = (
        cell(pair.label),
        Cell((_of(pair.first, a),)),
        Cell((_of(pair.second, b),)),
        change_cell(pair),
    )
    return Row(cells, anchor=pair.key.replace("/", "-"))


def _part_row(change: PartChange) -> Row:
    grams = cell("")
    if isinstance(change.grams, Figure):
        grams = Cell((_signed(change.grams),))
    elif change.grams is not None:
        grams = cell("unknown")
    cost = cell("")
    if change.money is not None:
        cost = cell("unknown" if isinstance(change.money, Unknown) else signed_money(change.money))
    words = "different weight" if change.how == "same" and change.differs else HOW[change.how]
    anchor = "part-" + change.key.replace(", ", "-").replace("/", "-")
    return table_row(
        cell(change.key, note=words), change.first, change.second, grams, cost, anchor=anchor
    )


def signed_money(amount: Money) -> str:
    """An amount with its sign."""
    return ("+" if amount.minor > 0 else "") + money(amount)


def part_blocks(difference: Difference, a: str, b: str) -> tuple[Block, ...]:
    """The places that differ, and all others folded away."""
    heads = table_columns("Place", a, b, right_column("Grams"), right_column("Money"))
    changed = [p for p in difference.parts if p.differs]
    same = [p for p in difference.parts if not p.differs]
    blocks: list[Block] = []
    if changed:
        note = (
            "The grams of all places, those below included, add up to the difference of the dry"
            " weights."
        )
        rows = tuple(_part_row(p) for p in changed)
        blocks.append(
            Table("Parts that differ", heads, rows, "parts-differ", stack=True, note=note)
        )
    else:
        blocks.append(Paragraph((Span("No part differs."),)))
    if same:
        table = Table(
            "The same in both", heads, tuple(_part_row(p) for p in same), "parts-same", stack=True
        )
        blocks.append(
            Fold(
                counted(len(same), "place that is the same", "places that are the same"),
                (table,),
                paper=False,
                alike=True,
            )
        )
    return tuple(blocks)


def money_table(difference: Difference, a: str, b: str) -> Table:
    """What both builds cost."""
    first, second = difference.price
    gap = Money(second.minor - first.minor, first.currency)
    sides = (
        cell(money(m, at_least=least))
        for m, least in zip(difference.price, difference.unpriced, strict=True)
    )
    note = LEFT_OUT if any(difference.unpriced) else ""
    row = table_row("Parts of the build", *sides, cell(signed_money(gap), note=note), anchor="cost")
    return Table("Money", figure_heads(a, b), (row,), "figures-money", stack=True)


def figure_heads(a: str, b: str) -> tuple[Column, ...]:
    """Columns of a table of figures."""
    return table_columns("Figure", right_column(a), right_column(b), right_column("Difference"))


def figure_table(caption: str, pairs: tuple[Pair, ...], a: str, b: str) -> Table:
    """A table of figures of both builds."""
    rows = tuple(figure_row(p, a, b) for p in pairs)
    return Table(caption, figure_heads(a, b), rows, f"figures-{caption.casefold()}", stack=True)
