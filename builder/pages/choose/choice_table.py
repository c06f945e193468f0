"""Choices as a table: what is swapped, weight, price and time in the air, each as the sheet of that
build would show it.
"""

from collections.abc import Sequence

from builder.compute.choose.offers import Offer
from builder.compute.figures.figure import Figure, Unknown
from builder.compute.flight.flight import BAND
from builder.compute.formulas.uncertainty.statistics import chance_above
from builder.model.build import Build
from builder.model.values.money_text import Money
from builder.pages.blocks import Cell, Column, Number, Row, Span, Table
from builder.pages.numbers import number
from builder.pages.rows import table_columns, table_row
from builder.rounding import chance_words, rounded
from builder.rules.choose.search import ChosenSwaps

_MINUTE = 60.0


def _plain(shown: Number) -> Number:
    """A number of a build that has no page of numbers: it opens nothing."""
    return Number(shown.value, shown.unit, shown.spread, prefix=shown.prefix)


def swap_words(build: Build, offer: Offer, made: Build) -> str:
    """One swap: what comes, in place of what."""
    if offer.battery:
        return f"{made.packs[offer.key].part.name} in place of battery {offer.key}"
    old, new = build.parts[offer.key], made.parts[offer.key]
    many = f"{old.count} x " if old.count > 1 else ""
    return f"{many}{new.part.name} in place of {old.part.name}"


def choice_words(build: Build, one: ChosenSwaps) -> str:
    """All swaps of a choice, and the battery that it flies on."""
    swaps = [swap_words(build, o, one.build) for o in one.selection.swaps]
    own = "" if one.selection.other_pack else f"battery {one.selection.pack}"
    if not swaps:
        return f"as it is, {own}"
    return "; ".join((*swaps, *([own] if own else [])))


def _weight(figure: Figure, limit: float | None) -> Cell:
    shown = _plain(number(figure, spread=True))
    if limit is None:
        return Cell((shown,), sort=figure.value)
    chance = chance_above(figure.value, limit, figure.spread)
    end, words = chance_words(chance, 0)
    note = f"{f'{end} ' if end else ''}{words} % chance of being over"
    return Cell((shown,), note=note, sort=figure.value)


def time_cell(one: ChosenSwaps) -> Cell:
    """The time with its band."""
    time = one.figures.time
    if isinstance(time, Unknown):
        return Cell((Span("not known"),))
    low, high = (max(t, 0.0) / _MINUTE for t in time.band(BAND))
    note = f"{rounded(low, 1)} to {rounded(high, 1)}"
    return Cell((_plain(number(time)),), note=note, sort=time.value)


def price_cell(one: ChosenSwaps) -> Cell:
    """The price in the site's currency; 'at least' where a part has none."""
    figure = one.figures.price
    digits = Money(0, figure.unit).digits
    shown = number(figure, decimals=digits)
    prefix = "at least" if one.figures.unpriced else shown.prefix
    return Cell((Number(shown.value, shown.unit, prefix=prefix),), sort=figure.value)


def _row(build: Build, mark: str, one: ChosenSwaps, limit: float | None) -> Row:
    weight = _weight(one.figures.mass, limit)
    said = Cell((Span(choice_words(build, one)),))
    return table_row(mark, said, weight, price_cell(one), time_cell(one))


def choice_table(
    build: Build,
    caption: str,
    first: str,
    rows: Sequence[tuple[str, ChosenSwaps]],
    *,
    limit: float | None = None,
    numbered: bool = False,
    anchor: str = "",
    note: str = "",
) -> Table:
    """Rows of choices, each with a mark in the first column; `limit` (kg) adds the chance of being
    over it; each `numbered` row has an anchor.
    """
    columns = table_columns(
        first,
        "What is swapped",
        Column("Flying weight", align="right"),
        Column("Price, with its battery", align="right"),
        Column("In the air", align="right"),
    )
    made = tuple(
        Row(_row(build, mark, one, limit).cells, anchor=f"choice-{mark}" if numbered else "")
        for mark, one in rows
    )
    return Table(caption, columns, made, anchor=anchor, stack=True, note=note)
