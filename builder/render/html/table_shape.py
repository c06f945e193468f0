"""How much room a table needs, so that the style sheet knows below which width its rows are cards.

The style sheet cannot measure: it asks for the width of the table's frame, and compares it with the
step that stands here as a class. Widths are in rem of the page.
"""

from collections.abc import Iterable

from builder.pages import blocks as b

STEPS = (20, 25, 30, 36, 42, 48, 54, 62, 72)  # widths that the style sheet asks for
_LETTER = 0.44  # rem, a letter of the condensed family at the size of tables, with some to spare
_GAP = 1.0  # rem between two columns
_FITS = 16.5  # rem, the frame on the narrowest screen that is promised (320 px)
_SHORT = 14  # letters that a column of words is not squeezed below
_HALF = 17  # letters that stand in half a card beside their label
_WIDE_BOX = 13  # letters that a box to write in takes
_THUMBNAIL = 14  # letters beside which a small picture is as wide
_TICK = 4  # letters that a box to tick takes


def _words_of(piece: b.Inline) -> str:
    """What a piece shows, with what cannot break joined."""
    if isinstance(piece, b.Number):
        parts = (piece.prefix, piece.value, piece.unit, piece.spread)
        return "\u00a0".join([p.replace(" ", "\u00a0") for p in parts if p])
    if isinstance(piece, b.Swatch):
        return f"----{piece.name} {piece.letters}"
    if isinstance(piece, b.Thumbnail):
        return "-" * _THUMBNAIL
    if isinstance(piece, b.Tick):
        return "-" * _TICK
    if isinstance(piece, b.WriteIn):
        return f"{piece.label} {'-' * _WIDE_BOX} {piece.unit}"
    return piece.text


def _letters(words: str) -> tuple[int, int]:
    """The letters of the longest piece that cannot break, and of all."""
    longest = max([len(word) for word in words.split(" ")], default=0)
    return longest, len(words)


def _cell_letters(cell: b.Cell) -> tuple[int, int]:
    words = "".join([_words_of(piece) for piece in cell.pieces])
    longest, whole = _letters(words)
    if not cell.note:
        return longest, whole
    longest_of_note, whole_of_note = _letters(cell.note)
    return max(longest, longest_of_note), max(whole, whole_of_note)


def column_letters(t: b.Table) -> list[tuple[int, int]]:
    """For each column the longest piece that cannot break and the longest cell, in letters."""
    found = [[_letters(f"{c.heading} {c.unit}".strip())[0]] * 2 for c in t.columns]
    for row in t.rows:
        if row.kind == "group":
            continue
        for known, cell in zip(found, row.cells, strict=False):
            longest, whole = _cell_letters(cell)
            known[0] = max(known[0], longest)
            known[1] = max(known[1], whole)
    return [(longest, whole) for longest, whole in found]


def room(letters: Iterable[tuple[int, int]]) -> float:
    """The rem that these columns need to be read as a table."""
    wanted = [max(longest, min(whole, _SHORT)) for longest, whole in letters]
    return sum(wanted) * _LETTER + (len(wanted) - 1) * _GAP


def card_step(letters: list[tuple[int, int]]) -> int:
    """Below how many rem the rows are cards; 0 for a table that fits the narrowest screen."""
    needed = room(letters)
    if needed <= _FITS:
        return 0
    return next((step for step in STEPS if step >= needed), STEPS[-1])


def long_columns(letters: list[tuple[int, int]]) -> list[int]:
    """Columns, counted from 1, whose cells take the whole width of a card."""
    return [i for i, (_, whole) in enumerate(letters, 1) if whole > _HALF and i > 1]
