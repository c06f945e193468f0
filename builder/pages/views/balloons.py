"""Numbered balloons at both sides of a view, led to their parts by thin lines of which none
crosses another.
"""

from collections.abc import Mapping
from math import ceil, dist, hypot

from builder.frozen import value_class
from builder.pages.drawing import Circle, Item, Line, Marked, Words
from builder.pages.tables.part_numbers import part_anchor

RADIUS = 2.7  # mm
TYPE = 3.3  # mm, type of all that is read in a view
STEP = 2 * RADIUS + 0.9  # mm between balloons of a column, and between lanes
PagePoint = tuple[float, float]


@value_class(frozen=True, slots=True)
class Balloon:
    """A number, the point of the part that it is led to, and where the balloon stands."""

    key: str
    number: int
    tip: PagePoint
    at: PagePoint

    @property
    def leader(self) -> Line:
        """The line from the balloon's rim to the part, which ends in a dot (ISO 128-22)."""
        (x, y), (tx, ty) = self.at, self.tip
        length = hypot(tx - x, ty - y) or 1.0
        start = x + RADIUS * (tx - x) / length, y + RADIUS * (ty - y) / length
        return Line((start, self.tip), "lead", width=0.18)


def balloon_items(
    drawn: tuple[Balloon, ...], link: str, words: Mapping[str, str], at: PagePoint
) -> list[Item]:
    """Lines, dots and rings, then the numbers, each of which leads to its part's row and says
    `words` at a place while it is pointed to.
    """
    items: list[Item] = [b.leader for b in drawn]
    items += [Line((b.tip, b.tip), "dot", width=0.9) for b in drawn]
    items += [Circle(*b.at, RADIUS, "paper ring") for b in drawn]
    for b in drawn:
        x, y = b.at
        number = Words(x, y + 0.35 * TYPE, str(b.number), TYPE, "middle")
        to = f"{link}#{part_anchor(b.number)}"
        items.append(Marked((number,), to, words.get(b.key, ""), *at))
    return items


def _uncrossed(tips: list[PagePoint], places: list[PagePoint]) -> list[int]:
    """Which place each tip takes, so that the lines are shortest in sum: then none crosses another
    (two lines that cross get shorter when they change ends).
    """
    taken = sorted(range(len(tips)), key=lambda i: (tips[i][1], tips[i][0]))
    given = [0] * len(tips)
    for place, tip in enumerate(taken):
        given[tip] = place
    better = True
    while better:
        better = False
        for i in range(len(tips)):
            for k in range(i):
                now = dist(tips[i], places[given[i]]) + dist(tips[k], places[given[k]])
                then = dist(tips[i], places[given[k]]) + dist(tips[k], places[given[i]])
                if then < now - 1e-9:
                    given[i], given[k], better = given[k], given[i], True
    return given


def lanes_of(count: int, length: float) -> int:
    """How many lanes beside each other half of so many balloons need along a length."""
    return max(1, ceil(STEP * ((count + 1) // 2) / length - 1e-9))


def _in_lanes(
    x: float, inward: float, count: int, top: float, bottom: float, lanes: int
) -> list[PagePoint]:
    """Places in lanes, each further in than the last, so that a line passes between those of the
    next.
    """
    step = (bottom - top) / max(count, 1)
    return [(x + inward * STEP * (i % lanes), top + step * (i + 0.5)) for i in range(count)]


def _column(x: float, count: int, top: float, bottom: float) -> list[PagePoint]:
    """Places of a column, as far apart as its height allows, about its middle."""
    step = max(STEP, min(2.2 * STEP, (bottom - top) / max(count, 1)))
    first = (top + bottom - step * (count - 1)) / 2
    return [(x, first + step * i) for i in range(count)]


def needed(count: int) -> float:
    """The height that the balloons of so many parts need, in two columns."""
    return STEP * ((count + 1) // 2)


def balloons(
    tips: list[tuple[str, int, PagePoint]],
    width: float,
    top: float,
    bottom: float,
    lanes: int = 1,
) -> tuple[Balloon, ...]:
    """Balloons for keys with their numbers and points: the left half of the points in the left
    column, the right half in the right one; each of them in so many lanes.
    """
    ordered = sorted(tips, key=lambda t: (t[2][0], t[2][1], t[1]))
    half = (len(ordered) + 1) // 2
    out: list[Balloon] = []
    for x, mine in ((RADIUS + 0.3, ordered[:half]), (width - RADIUS - 0.3, ordered[half:])):
        places = _column(x, len(mine), top, bottom)
        if lanes > 1:
            inward = 1.0 if x < width / 2 else -1.0
            places = _in_lanes(x, inward, len(mine), top, bottom, lanes)
        given = _uncrossed([t[2] for t in mine], places)
        out += [Balloon(k, n, tip, places[g]) for (k, n, tip), g in zip(mine, given, strict=True)]
    return tuple(sorted(out, key=lambda b: b.number))


def balloons_in_rows(
    tips: list[tuple[str, int, PagePoint]], height: float, left: float, right: float
) -> tuple[Balloon, ...]:
    """The same in rows above and below: for views that are wider than high."""
    turned = [(key, number, (y, x)) for key, number, (x, y) in tips]
    lanes = lanes_of(len(tips), right - left)
    found = balloons(turned, height, left, right, lanes)
    return tuple(Balloon(b.key, b.number, (b.tip[1], b.tip[0]), (b.at[1], b.at[0])) for b in found)
