"""Words beside a picture, each with a thin line to its point of the picture."""

import textwrap
from collections.abc import Sequence

from builder.pages.blocks import PictureMark
from builder.render.html.escaped import text

PICTURE = 62.0  # of a hundred, how much of the width is the picture's; the rest is for the words
_COLUMNS = 17  # letters in a line of words, on a phone
_INDENT = 2.0  # of a hundred, from the picture to the words


def _share(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0") + "%"


def _in_order(marks: Sequence[PictureMark]) -> list[PictureMark]:
    """From the top down, so that no line crosses another's words."""
    return sorted(marks, key=lambda m: (m.y, -m.x, m.text))


def callouts(marks: Sequence[PictureMark]) -> str:
    """Lines over the picture and words at its margin, as one drawing over the whole width. It is as
    high as the picture, so that shares of its height are those of the picture.
    """
    lines: list[str] = []
    words: list[str] = []
    ordered = _in_order(marks)
    for i, mark in enumerate(ordered):
        y = _share(100.0 * (i + 0.5) / len(ordered))
        x, end = _share(PICTURE * mark.x), _share(PICTURE + _INDENT / 2)
        at = _share(100.0 * mark.y)
        line = f"x1={x} y1={at} x2={end} y2={y}"
        lines.append(f"<line class=under {line} /><line {line} /><circle cx={x} cy={at} r=2.5 />")
        start = _share(PICTURE + _INDENT)
        rows = textwrap.wrap(mark.text, _COLUMNS) or [""]
        first = (1 - len(rows)) / 2 + 0.32  # em, so that the words stand about the end of the line
        said = "".join(
            f"<tspan x={start} dy={(first if k == 0 else 1.15):.2f}em>{text(row)} </tspan>"
            for k, row in enumerate(rows)
        )
        words.append(f"<text x={start} y={y}>{said}</text>")
    return f"<svg class=callouts>{''.join(lines)}{''.join(words)}</svg>"
