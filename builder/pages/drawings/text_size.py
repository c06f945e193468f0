"""How wide words may become in a drawing, so that boards are drawn wide enough. Estimates lie on
the wide side.
"""

import re
from math import fsum

MONO = 0.6  # em a character: the advance of the type that contacts are set in
_WIDE = 0.62  # em a character of the condensed type, capitals included, bold at most


def mono_width(text: str, size: float) -> float:
    """Width in mm of text in the type of contacts, of an em of `size` mm."""
    return MONO * size * len(text)


def words_width(text: str, size: float) -> float:
    """Width in mm that words take at most."""
    return _WIDE * size * len(text)


# em by letters: the widest advance of a group in the condensed family, upright (read from its file)
_ADVANCES = (
    (0.25, " ijl.,"),
    (0.36, "ft/rI-()"),
    (0.46, "szcvyLxJ"),
    (0.5, "aeogk"),
    (0.53, "hnubdpqFTZESY"),
    (0.55, "0123456789+PV"),
    (0.59, "CXKARB"),
    (0.64, "DUGOQHN"),
)
_ADVANCE = {letter: wide for wide, letters in _ADVANCES for letter in letters}
_OTHER = 0.82  # em, letters that are not listed


_BREAKS = re.compile(r"(?<=[ -])")  # behind a space or a hyphen


def _pieces(text: str, size: float, room: float) -> list[str]:
    """What a line may end behind; what is longer than a line by itself is cut."""
    found = []
    for piece in _BREAKS.split(text):
        most = max(int(room / (_WIDE * size)), 1)
        fits = close_width(piece.strip(), size) <= room
        found += [piece] if fits else [piece[i : i + most] for i in range(0, len(piece), most)]
    return found


def lines_within(text: str, size: float, room: float) -> list[str]:
    """Words in lines, none wider than `room` mm: broken behind spaces and hyphens, within a word only
    where it is longer than a line.
    """
    lines = [""]
    for piece in _pieces(text, size, room):
        longer = lines[-1] + piece
        if lines[-1] and close_width(longer.strip(), size) > room:
            lines.append(piece)
        else:
            lines[-1] = longer
    return [line.strip() for line in lines]


def close_width(text: str, size: float) -> float:
    """Width in mm that words take, letter by letter: where room is scarce."""
    return size * fsum(_ADVANCE.get(letter, _OTHER) for letter in text)
