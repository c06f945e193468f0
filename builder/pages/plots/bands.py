"""A figure with its band in brackets: from the lower to the upper end that hold four cases of five."""

from builder.compute.figures.figure import Figure, MaybeFigure
from builder.compute.flight.flight import BAND
from builder.pages.blocks import Cell, Number, Span
from builder.pages.numbers import in_unit, number, shown_in
from builder.rounding import rounded


def banded(figure: MaybeFigure) -> tuple[Number | Span, ...]:
    """The figure, and its band where it has a spread."""
    if not isinstance(figure, Figure) or not figure.spread:
        return (number(figure),)
    _, factor, _ = shown_in(figure)
    _, _, _, decimals = in_unit(figure)
    low, high = (rounded(v * factor, decimals) for v in figure.band(BAND))
    return number(figure), Span(f" ({low} to {high})")


def band(figure: MaybeFigure) -> Cell:
    """The same as a cell."""
    return Cell(banded(figure))
