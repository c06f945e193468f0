"""Sizes, positions and hole patterns: several lengths in one value."""

import re
from dataclasses import dataclass
from typing import Annotated, Any

from builder.model.values.mistaken import text_of, wrong
from builder.model.values.quantities import (
    NUMBER,
    WRITTEN,
    parse,
    reads,
    unit_of,
    with_points,
    written_units,
)
from builder.model.values.units import DIMENSIONS

_METRIC = re.compile(rf"({NUMBER}\s*[x×*]\s*{NUMBER})\s+(M[1-9](?:\.\d)?)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Pattern:
    """A hole pattern: spacing across and along in metres, and the thread. One spacing means a bolt
    circle.
    """

    across: float
    along: float | None
    thread: str | None

    @property
    def label(self) -> str:
        """As the trade writes it: `20 x 20 mm M2`."""
        sides = [f"{1000 * s:g}" for s in (self.across, self.along) if s is not None]
        return " x ".join(sides) + " mm" + (f" {self.thread}" if self.thread else "")


@dataclass(frozen=True, slots=True)
class Size:
    """Lengths along the part's own axes in metres: two or three."""

    along: tuple[float, ...]

    @property
    def label(self) -> str:
        """`30 x 30 x 8 mm`."""
        return " x ".join(f"{1000 * s:g}" for s in self.along) + " mm"


@dataclass(frozen=True, slots=True)
class Position:
    """x forward, y left, z up from the middle of the frame's base, in metres."""

    x: float
    y: float
    z: float


def _pattern(value: Any) -> Pattern:
    if isinstance(value, Pattern):
        return value
    given = text_of(value, "a hole pattern", "20 x 20 mm M2")
    text = with_points(given)
    metric = _METRIC.fullmatch(text)
    if metric is not None:  # a metric thread without a unit before it: so are the lengths
        text = f"{metric[1]} mm {metric[2]}"
    match = re.fullmatch(
        rf"({NUMBER})(?:\s*[x×*]\s*({NUMBER}))?\s*(\D\S*?)?(?:\s+([Mm][1-9](?:\.\d)?))?",
        text,
        re.IGNORECASE,
    )
    if match is None:
        raise wrong(
            "data/not-a-pattern",
            f"{given!r} is not a hole pattern.",
            "Write it like '20 x 20 mm M2' or '9 mm M2'.",
        )
    length = DIMENSIONS["length"]
    factor = length.units[unit_of(match[3], length, given)]
    along = float(match[2]) * factor if match[2] else None
    thread = match[4].upper() if match[4] else None
    return Pattern(float(match[1]) * factor, along, thread)


def _lengths(given: str, many: tuple[int, ...], example: str) -> tuple[float, ...]:
    text = with_points(given)
    match = re.fullmatch(rf"(.*?{NUMBER})\s*(\D*)", text)
    pieces = re.split(r"\s*[x×*]\s*", match[1]) if match else []
    last = match[2] if match else ""
    ends = [piece.removesuffix(last).strip() for piece in pieces] if last else pieces
    sound = len(ends) in many and all(re.fullmatch(NUMBER, p) for p in ends)
    if not sound:
        raise wrong("data/not-a-size", f"{given!r} is not a size.", f"Write it like {example!r}.")
    length = DIMENSIONS["length"]
    factor = length.units[unit_of(last or None, length, given)]
    return tuple(float(p) * factor for p in ends)


def _size(value: Any) -> Size:
    if isinstance(value, Size):
        return value
    text = text_of(value, "a size", "30 x 30 x 8 mm")
    return Size(_lengths(text, (1, 2, 3), "30 x 30 x 8 mm"))


def _position(value: Any) -> Position:
    if isinstance(value, Position):
        return value
    text = text_of(value, "a position", "0 mm, 0 mm, 14 mm")
    pieces = re.split(r",(?!\d)|(?<!\d),", text)  # not the comma of 14,5 mm
    if len(pieces) != 3:
        raise wrong(
            "data/not-a-size",
            f"{value!r} is not a position.",
            "Write forward, left, up: '0 mm, 0 mm, 14 mm'.",
        )
    last = re.fullmatch(rf"\s*{NUMBER}\s*(\D+?)\s*", with_points(pieces[2]))
    unit = last[1] if last is not None else ""  # one at the end is that of all three
    whole = (f"{p} {unit}" if re.fullmatch(rf"\s*{NUMBER}\s*", p) else p for p in pieces)
    x, y, z = (parse(p, "length").value for p in whole)
    return Position(x, y, z)


_METRE = written_units("length")
_LENGTH = rf"{WRITTEN}\s*{_METRE}"
PatternText = Annotated[
    Pattern,
    reads(
        _pattern,
        "a hole pattern",
        "20 x 20 mm M2",
        rf"{WRITTEN}(?:\s*[x×*]\s*{WRITTEN})?\s*{_METRE}(?:\s+[Mm][1-9](?:\.\d)?)?"
        rf"|{WRITTEN}\s*[x×*]\s*{WRITTEN}\s+[Mm][1-9](?:\.\d)?",
    ),
]
SizeText = Annotated[
    Size,
    reads(
        _size,
        "a size",
        "30 x 30 x 8 mm",
        rf"{WRITTEN}(?:\s*{_METRE}?\s*[x×*]\s*{WRITTEN}){{0,2}}\s*{_METRE}",
    ),
]
PositionText = Annotated[
    Position,
    reads(
        _position,
        "a place: forward, left, up",
        "0 mm, 0 mm, 14 mm",
        rf"\s*{WRITTEN}\s*{_METRE}?\s*,\s*{WRITTEN}\s*{_METRE}?\s*,\s*{_LENGTH}\s*",
    ),
]
