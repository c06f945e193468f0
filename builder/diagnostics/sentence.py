"""What a finding says: a sentence with numbers in it that keep their value, their unit and where
they come from.
"""

from collections.abc import Iterable, Sequence
from typing import Any, Self

from builder.frozen import value_class


@value_class(frozen=True, slots=True)
class Amount:
    """A number of a sentence: its value in the SI unit, the key of the figure that it is or is made
    from, its text.

    `key` is empty where it has none. `shown` and `shown_unit` are the text as it was rounded,
    `prefix` words such as 'at least' before it.
    """

    value: float
    unit: str
    key: str
    shown: str
    shown_unit: str = ""
    prefix: str = ""

    @property
    def text(self) -> str:
        """As it stands in the sentence: `at least 36.40 A`."""
        return " ".join(word for word in (self.prefix, self.shown, self.shown_unit) if word)


Piece = str | Amount


class Sentence(str):
    """Text that still knows its numbers: `pieces` are its words and amounts in a row. Else a text
    like any other.
    """

    pieces: tuple[Piece, ...]

    def __new__(cls, *pieces: Piece) -> Self:
        """The sentence of these pieces."""
        made = super().__new__(cls, "".join(p if isinstance(p, str) else p.text for p in pieces))
        made.pieces = pieces
        return made


def pieces_of(text: str) -> tuple[Piece, ...]:
    """The words and amounts of a sentence; a plain text is one piece."""
    return text.pieces if isinstance(text, Sentence) else (text,)


def amounts_of(text: str) -> tuple[Amount, ...]:
    """The amounts of a sentence; none for a plain text."""
    return tuple(p for p in pieces_of(text) if isinstance(p, Amount))


def joined(between: str, texts: Iterable[str]) -> Sentence:
    """Texts in a row with words between them, as `str.join`, with their amounts kept."""
    out: list[Piece] = []
    for i, text in enumerate(texts):
        out += [between] if i and between else []
        out += pieces_of(text)
    return Sentence(*out)


def plain_amounts(text: str) -> list[list[object]]:
    """The amounts of a text as plain values, each after its place in the text."""
    out: list[list[object]] = []
    at = 0
    for piece in pieces_of(text):
        if isinstance(piece, Amount):
            out.append(
                [
                    at,
                    piece.value,
                    piece.unit,
                    piece.key,
                    piece.shown,
                    piece.shown_unit,
                    piece.prefix,
                ]
            )
        at += len(piece if isinstance(piece, str) else piece.text)
    return out


def with_amounts(text: str, plain: Iterable[Sequence[Any]]) -> str:
    """The text with the amounts that `plain_amounts` gave. ValueError or TypeError for anything
    else.
    """
    pieces: list[Piece] = []
    done = 0
    for at, value, unit, key, shown, shown_unit, prefix in plain:
        amount = Amount(value, unit, key, shown, shown_unit, prefix)
        if at < done or not text.startswith(amount.text, at):
            raise ValueError(f"{amount.text!r} does not stand at {at}")
        pieces += [text[done:at], amount]
        done = at + len(amount.text)
    return Sentence(*[p for p in (*pieces, text[done:]) if p]) if pieces else text
