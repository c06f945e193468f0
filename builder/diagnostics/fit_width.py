"""Text for a terminal of a width: sentences are wrapped at blanks, a source line is cut around its
caret.
"""

import re
from itertools import pairwise
from textwrap import wrap

LEAST_WIDTH = 40  # narrower ones get lines of this
_SOURCE = re.compile(r"( *\d+ \| )(.*)", re.DOTALL)
_CARET = re.compile(r"( *\| )( *)(\^+)", re.DOTALL)


def _cut(source: str, caret: str, width: int) -> list[str]:
    """A source line and its caret as long as fits, with the caret in sight."""
    head, caret_head = _SOURCE.fullmatch(source), _CARET.fullmatch(caret)
    if head is None or caret_head is None:
        return [source, caret]
    number, words = head.groups()
    margin, blanks, marks = caret_head.groups()
    room, at = width - len(number), len(blanks)
    start = max(0, at - room // 2) if at + len(marks) > room else 0
    before = at - start
    shown = marks[: max(1, room - before)]
    return [number + words[start : start + room], margin + " " * before + shown]


def wrapped(line: str, width: int | None, hang: int = 7) -> str:
    """One line over as many as it takes; those that follow are indented by `hang`."""
    if width is None or len(line) <= width:
        return line
    words = line.lstrip(" ")
    own = len(line) - len(words)
    pieces = wrap(
        words,
        max(width, LEAST_WIDTH),
        initial_indent=" " * own,
        subsequent_indent=" " * max(own, hang),
        break_long_words=False,
        break_on_hyphens=False,
    )
    return "\n".join(pieces)


def fitted(text: str, width: int | None) -> str:
    """A finding over lines that fit; `width` is None where lines may be of any length."""
    if width is None:
        return text
    width = max(width, LEAST_WIDTH)
    lines = text.split("\n")
    out: list[str] = []
    carets = {i + 1 for i, (a, b) in enumerate(pairwise(lines)) if _is_pair(a, b)}
    for i, line in enumerate(lines):
        if i + 1 in carets:
            out += _cut(line, lines[i + 1], width)
        elif i not in carets:
            out.append(wrapped(line, width))
    return "\n".join(out)


def _is_pair(source: str, caret: str) -> bool:
    return bool(_SOURCE.fullmatch(source) and _CARET.fullmatch(caret))
