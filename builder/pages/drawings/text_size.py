"""How wide words may become in a drawing, so that boards are drawn wide enough. Estimates lie on
the wide side.
"""

MONO = 0.6  # em a character: the advance of the type that contacts are set in
_WIDE = 0.62  # em a character of the condensed type, capitals included, bold at most


def mono_width(text: str, size: float) -> float:
    """Width in mm of text in the type of contacts, of an em of `size` mm."""
    return MONO * size * len(text)


def words_width(text: str, size: float) -> float:
    """Width in mm that words take at most."""
    return _WIDE * size * len(text)
