"""Numbers of a page: a figure's text, rounded by builder/rounding.py, and where its derivation
stands.
"""

from decimal import Decimal

from builder.compute.figures.at_least import ABOUT, AT_LEAST, AT_MOST, reading_of
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, anchor_of
from builder.model.values.money_text import Money
from builder.pages.blocks import Cell, Number, Span
from builder.rounding import (
    ShownUnit,
    chance_words,
    decimals_for,
    rounded,
    rounded_down,
    unit_for,
    usual_unit,
)


def is_kept(key: str) -> bool:
    """Whether a figure is a time that is not to be flown longer than: no page shows it longer than
    it is.
    """
    return key.endswith("/timer")


def shown_in(figure: Figure) -> tuple[str, float, int]:
    """The unit in which pages show a figure, the factor to it, and its usual decimals."""
    return unit_for(figure.value, figure.unit)


def in_unit(figure: Figure) -> tuple[float, float, str, int]:
    """Value and spread in the unit that pages show, the unit, and its usual decimals."""
    unit, factor, decimals = shown_in(figure)
    return figure.value * factor, figure.spread * factor, unit, decimals


def number(
    figure: MaybeFigure,
    *,
    decimals: int | None = None,
    spread: bool = False,
    unit: bool = True,
    steady: bool = False,
    shown_as: ShownUnit | None = None,
) -> Number:
    """A figure as text that links to its derivation; an Unknown as a dash that does too.

    `shown_as` is a unit in place of the usual one.
    `steady` keeps the usual unit however small the value, so that two sides and their difference
    share it. A time to be kept is cut, never rounded up.
    """
    if isinstance(figure, Unknown):
        return Number("unknown", anchor=anchor_of(figure.key))
    usual_one = usual_unit(figure.unit) if steady else shown_in(figure)
    shown_unit, factor, usual = usual_one if shown_as is None else shown_as
    value, wide = figure.value * factor, figure.spread * factor
    places = usual if decimals is None else decimals
    shown_spread = ""
    if spread and wide:
        shown_spread = f"± {rounded(wide, max(places, decimals_for(wide)))}"
    shown_value = (rounded_down if is_kept(figure.key) else rounded)(value, places)
    return Number(
        shown_value,
        shown_unit if unit else "",
        shown_spread,
        anchor_of(figure.key),
        figure.basis,
        reading_of(figure),
    )


def percent(figure: MaybeFigure, decimals: int = 0) -> Number:
    """A share as per cent; a chance never rounds to certainty, and one that leaves something out
    says which way.
    """
    if isinstance(figure, Unknown):
        return number(figure)
    end, shown = chance_words(figure.value, decimals)
    way = reading_of(figure)
    # What is only a lower bound is not known to be small, nor an upper one to be large.
    open_ways = {"under": (AT_LEAST, ABOUT), "over": (AT_MOST, ABOUT)}.get(end, ())
    if way in open_ways:
        return Number("unknown", anchor=figure.anchor)
    return Number(shown, "%", anchor=figure.anchor, prefix=end or way)


def money(amount: Money, *, at_least: bool = False) -> str:
    """An amount with its currency code: `12.50 EUR`; `at_least` for a sum that leaves out what has
    no price.
    """
    return (
        f"{'at least ' if at_least else ''}{rounded(float(Decimal(amount.minor).scaleb(-amount.digits)), amount.digits)}"
        f" {amount.currency}"
    )


def cell(*pieces: Number | Span | str, note: str = "") -> Cell:
    """A table's cell of numbers and words."""
    return Cell(tuple(Span(p) if isinstance(p, str) else p for p in pieces), note)
