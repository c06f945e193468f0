"""Wires of the drawing as level and upright pieces, each upright piece in a lane, and how often
they cross.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from builder.pages.drawings.lanes import Bank, LaneWire, lanes
from builder.pages.drawings.layout import STEP, Box, Columns

RoutePoint = tuple[float, float]
LANE = 2.2  # mm between lanes
MARGIN = 1.0  # mm around all, so that rims are not cut
LaneRun = tuple[int, LaneWire]


@dataclass(frozen=True, slots=True)
class Banks:
    """The left and right bank of both channels, and the width of each channel, in mm."""

    left: tuple[float, float]
    right: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Sizes:
    """Widths in mm: boards of each column, and the strip for labels along each bank."""

    left: float
    middle: float
    right: float
    strip: float


def _ends(boxes: Sequence[Box], right_side: bool) -> dict[int, list[float]]:
    found: dict[int, list[float]] = {}
    for box in boxes:
        for slot in box.right if right_side else box.left:
            for i, y in slot.wires:
                found.setdefault(i, []).append(y)
    return found


def channel(columns: Columns, left: bool) -> list[LaneRun]:
    """The wires of the left or right channel. A wire that passes the middle has a run in each."""
    banks: tuple[Bank, Bank] = ("left", "right")
    sources = (
        (_ends(columns.left, right_side=True), _ends(columns.middle, right_side=False))
        if left
        else (_ends(columns.middle, right_side=True), _ends(columns.right, right_side=False))
    )
    ends: dict[int, list[tuple[float, Bank]]] = {}
    for bank, source in zip(banks, sources, strict=True):
        for i, heights in source.items():
            ends.setdefault(i, []).extend((y, bank) for y in heights)
    for i, y in columns.over:
        ends[i].append((y, "right" if left else "left"))
    return [(i, LaneWire(*found[0], *found[1])) for i, found in sorted(ends.items())]


def routes(columns: Columns, sizes: Sizes) -> tuple[tuple[tuple[RoutePoint, ...], ...], Banks]:
    """The corner points of every wire in the order of the joins, and where the banks lie."""
    pieces: dict[int, list[list[RoutePoint]]] = {}
    x = MARGIN + sizes.left
    found: list[tuple[float, float]] = []
    for left in (True, False):
        runs = channel(columns, left)
        numbers = lanes([wire for _, wire in runs], STEP)
        count = max(numbers, default=-1) + 1
        far = x + 2 * sizes.strip + LANE * (count - 1) if runs else x
        bank_x: dict[Bank, float] = {"left": x, "right": far}
        for (i, wire), lane in zip(runs, numbers, strict=True):
            at = x + sizes.strip + LANE * lane
            points = [
                (bank_x[wire.bank1], wire.y1),
                (at, wire.y1),
                (at, wire.y2),
                (bank_x[wire.bank2], wire.y2),
            ]
            pieces.setdefault(i, []).append(points)
        found.append((x, far))
        x = far + sizes.middle
    over = {i for i, _ in columns.over}
    out = []
    for i in sorted(pieces):
        first = pieces[i][0]
        out.append(tuple([*first, *pieces[i][1][::-1]] if i in over else first))
    return tuple(out), Banks(found[0], found[1])


def crossings(wires: Sequence[Sequence[RoutePoint]]) -> int:
    """How often a level piece of one wire and an upright piece of another cross."""
    level: list[tuple[int, float, float, float]] = []
    upright: list[tuple[int, float, float, float]] = []
    for i, points in enumerate(wires):
        for (x0, y0), (x1, y1) in pairwise(points):
            if y0 == y1:
                level.append((i, min(x0, x1), max(x0, x1), y0))
            else:
                upright.append((i, min(y0, y1), max(y0, y1), x0))
    return sum(
        i != j and x0 < x < x1 and y0 < y < y1 for i, x0, x1, y in level for j, y0, y1, x in upright
    )
