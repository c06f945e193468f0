"""How wide words may become in a drawing, so that boards are drawn wide enough. Estimates lie on
the wide side.
"""

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


def close_width(text: str, size: float) -> float:
    """Width in mm that words take, letter by letter: where room is scarce."""
    return size * fsum(_ADVANCE.get(letter, _OTHER) for letter in text)
