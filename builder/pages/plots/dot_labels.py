"""Names beside dots: each nearer to its own dot than to any other, with a thin line where it has to
stand off.
"""

from collections.abc import Iterator, Sequence
from math import dist, hypot

from builder.pages.drawing import Item, Line, Words
from builder.pages.drawings.text_size import close_width

DOT = 1.3  # mm, the radius of a dot
_LETTERS, _GAP = 2.8, 0.4
_ACROSS, _DOWN = (2.2, 5.0, 9.0, 14.0, 20.0), 2.0
_ROWS, _NEAR = 12, 3.4  # a name further off than this (mm) has a line
_Point = tuple[float, float]
_Box = tuple[float, float, float, float]  # left, top, right, foot in mm


def _box(label: Words) -> _Box:
    wide = close_width(label.text, label.size)
    left = label.x - wide if label.anchor == "end" else label.x
    return left, label.y - 0.75 * label.size, left + wide, label.y + 0.2 * label.size


def _edge(box: _Box, point: _Point) -> _Point:
    """The point of a box that is nearest to another."""
    left, top, right, foot = box
    return min(max(point[0], left), right), min(max(point[1], top), foot)


def _apart(box: _Box, point: _Point) -> float:
    return dist(_edge(box, point), point)


def _meet(a: _Box, b: _Box) -> bool:
    beside = a[2] + _GAP < b[0] or b[2] + _GAP < a[0]
    return not (beside or a[3] + _GAP < b[1] or b[3] + _GAP < a[1])


def _places(at: _Point, text: str) -> Iterator[Words]:
    """Where a name may be, the nearest first."""
    downs = [n * _DOWN for n in range(-_ROWS, _ROWS + 1)]
    steps = [(x, y) for x in _ACROSS for y in downs]
    for across, down in sorted(steps, key=lambda s: (hypot(*s), s)):
        y = at[1] + down + _LETTERS / 3
        yield Words(at[0] + across, y, text, _LETTERS)
        yield Words(at[0] - across, y, text, _LETTERS, "end")


def _along(start: _Point, end: _Point) -> list[_Point]:
    """Points on a line, about half a millimetre apart."""
    many = max(2, round(2 * dist(start, end)))
    a, b = start, end
    steps = (n / many for n in range(many + 1))
    return [(a[0] + s * (b[0] - a[0]), a[1] + s * (b[1] - a[1])) for s in steps]


def _is_free(box: _Box, dots: Sequence[_Point], taken: Sequence[_Box], room: _Box) -> bool:
    inside = room[0] <= box[0] and room[1] <= box[1] and box[2] <= room[2] and box[3] <= room[3]
    off_dots = all(_apart(box, dot) > DOT + _GAP for dot in dots)
    return inside and off_dots and not any(_meet(box, other) for other in taken)


def _line_is_free(
    points: Sequence[_Point], others: Sequence[_Point], taken: Sequence[_Box]
) -> bool:
    past_dots = all(dist(p, dot) > DOT + _GAP for p in points for dot in others)
    return past_dots and all(_apart(box, p) > 0 for p in points for box in taken)


def _placed(
    at: _Point, text: str, dots: Sequence[_Point], taken: Sequence[_Box], room: _Box
) -> Words:
    """The nearest free place beside its own dot, else one that a line leads to."""
    others = [dot for dot in dots if dot != at]
    standing_off: list[Words] = []
    for label in _places(at, text):
        box = _box(label)
        if not _is_free(box, dots, taken, room):
            continue
        own = _apart(box, at)
        if own <= _NEAR and all(own + _GAP < _apart(box, dot) for dot in others):
            return label
        if own > _NEAR and _line_is_free(_along(at, _edge(box, at)), others, taken):
            standing_off.append(label)
    return standing_off[0] if standing_off else next(_places(at, text))


def dot_labels(dots: Sequence[_Point], names: Sequence[str], room: _Box) -> tuple[Item, ...]:
    """The names of dots, each with a line where it stands off; `room` in mm as left, top, right and
    foot. The most crowded dots come first.
    """
    crowd = [sum(dist(a, b) < 12 for b in dots) for a in dots]
    taken: list[_Box] = []
    lines: list[Item] = []
    words: dict[int, Words] = {}
    for n in sorted(range(len(dots)), key=lambda n: (-crowd[n], n)):
        label = _placed(dots[n], names[n], dots, taken, room)
        box, words[n] = _box(label), label
        taken.append(box)
        end = _edge(box, dots[n])
        if dist(end, dots[n]) > _NEAR:
            lines.append(Line((dots[n], end), "soft", width=0.2))
            taken += [(*p, *p) for p in _along(dots[n], end)]
    return (*lines, *(words[n] for n in sorted(words)))
