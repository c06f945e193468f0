"""Amounts and prices as tables of money show them."""

from builder.compute.figures.figure import MaybeFigure
from builder.compute.money.budget import BudgetLine
from builder.model.values.money_text import Money
from builder.pages.blocks import Cell, Number, Span
from builder.pages.numbers import money, number


def amount(figure: MaybeFigure, currency: str, *, unit: bool = False) -> Number:
    """An amount with the digits of its currency."""
    return number(figure, decimals=Money(0, currency).digits, unit=unit)


def price_of_one(line: BudgetLine) -> Cell:
    """The price as it was seen, and what it is for where that is a bag; why there is none."""
    if line.each is None:
        return Cell((Span(line.why_unknown or "no price"),), tone="bad")
    return Cell((Span(money(line.each)),), note=f"for {line.sold_in}" if line.by_pack else "")
