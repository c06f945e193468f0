"""A place in a picture, as shares of its width and height from its left upper corner."""

import re
from typing import Annotated, Any

from builder.frozen import value_class
from builder.model.values.mistaken import text_of, wrong
from builder.model.values.quantities import parse, reads


@value_class(frozen=True, slots=True)
class PicturePoint:
    """Shares from 0 to 1: from the left, from the top."""

    x: float
    y: float


def _picture_point(value: Any) -> PicturePoint:
    if isinstance(value, PicturePoint):
        return value
    text = text_of(value, "a place in a picture", "41 %, 63 %")
    pieces = re.split(r",(?!\d)|(?<!\d),", text)
    hint = "Write from the left, from the top: '41 %, 63 %'."
    if len(pieces) != 2:
        raise wrong("data/not-a-size", f"{value!r} is no place in a picture.", hint)
    x, y = (parse(p, "share").value for p in pieces)
    if not (0.0 <= x <= 1.0 and 0.0 <= y <= 1.0):
        raise wrong("data/not-a-size", f"{value!r} lies outside of the picture.", hint)
    return PicturePoint(x, y)


_SHARE = r"[0-9.,]+\s*%"
PicturePlace = Annotated[
    PicturePoint,
    reads(
        _picture_point,
        "a place in a picture: from the left, from the top",
        "41 %, 63 %",
        rf"\s*{_SHARE}\s*,\s*{_SHARE}\s*",
    ),
]
