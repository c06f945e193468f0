"""Words with plain values between them: pages word and round the values.

told("the series limiter (", PlainSpan(0.54, 0.91, "A"), ")")
"""

from builder.frozen import value_class


@value_class(frozen=True, slots=True)
class PlainValue:
    """A value of a sentence that is worked out or read, in the SI unit, unrounded."""

    value: float
    unit: str


@value_class(frozen=True, slots=True)
class PlainSpan:
    """From one value to another of one unit."""

    low: float
    high: float
    unit: str


@value_class(frozen=True, slots=True)
class PlainShare:
    """A share of a whole, 1 for all of it; pages show it as per cent."""

    value: float


ToldPiece = str | PlainValue | PlainSpan | PlainShare


@value_class(frozen=True, slots=True)
class Told:
    """Words and values in a row."""

    pieces: tuple[ToldPiece, ...]


WordsOrTold = str | Told


def told(*parts: ToldPiece | Told) -> WordsOrTold:
    """These words and values in a row: a plain text where no value is among them."""
    pieces: list[ToldPiece] = []
    for part in parts:
        pieces += part.pieces if isinstance(part, Told) else (part,)
    words = [p for p in pieces if isinstance(p, str)]
    if len(words) == len(pieces):
        return "".join(words)
    return Told(tuple(pieces))
