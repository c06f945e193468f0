"""Words of compute with their values rounded as everywhere on a page."""

from builder.compute.figures.figure import Figure
from builder.compute.figures.told import (
    PlainShare,
    PlainSpan,
    PlainValue,
    ToldPiece,
    WordsOrTold,
)
from builder.rounding import rounded, significant, unit_for

_CLOSE_UP = ("°",)  # units that are right behind the number


def told_words(words: WordsOrTold) -> str:
    """The words with each value as text."""
    if isinstance(words, str):
        return words
    return "".join(_piece(piece) for piece in words.pieces)


def note_words(figure: Figure) -> str:
    """What a figure says of itself, in words."""
    return told_words(figure.note)


def _piece(piece: ToldPiece) -> str:
    if isinstance(piece, PlainValue):
        return _value(piece)
    if isinstance(piece, PlainShare):
        return f"{significant(100 * piece.value, 3)} %"
    return _span(piece) if isinstance(piece, PlainSpan) else piece


def _value(one: PlainValue) -> str:
    unit, factor, decimals = unit_for(one.value, one.unit)
    shown = rounded(one.value * factor, decimals)
    return shown + unit if unit in _CLOSE_UP else f"{shown} {unit}".rstrip()


def _span(span: PlainSpan) -> str:
    """From low to high, with the unit of the higher one, said once."""
    unit, factor, decimals = unit_for(span.high, span.unit)
    low, high = (rounded(value * factor, decimals) for value in (span.low, span.high))
    return f"{low} to {high} {unit}".rstrip()
