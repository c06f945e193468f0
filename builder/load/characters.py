"""Characters that text of a build sheet does without: they hide, or steer a terminal or the
direction of reading.
"""

import re

_CONTROL = r"\x00-\x08\x0b-\x1f\x7f-\x9f"
_TURNS = r"\u202a-\u202e\u2066-\u2069"  # embeddings, overrides and isolates of Unicode UAX 9
_NO_CHARACTER = r"\ud800-\udfff\ufeff\ufffe\uffff"
_UNFIT = re.compile(f"[{_CONTROL}{_TURNS}{_NO_CHARACTER}\u2028\u2029]")


def unfit(text: str) -> tuple[int, str] | None:
    """Where the first character stands that text may not hold, and what it is; None for text that
    is fit.
    """
    match = None if text.isascii() and text.isprintable() else _UNFIT.search(text)
    if match is None:
        return None
    c = match[0]
    if "\u202a" <= c <= "\u202e" or "\u2066" <= c <= "\u2069":
        what = "a character that turns the direction of reading"
    elif c < "\u00a0":
        what = "a control character"
    else:
        what = "a character that no text needs"
    return match.start(), f"{what} (U+{ord(c):04X})"
