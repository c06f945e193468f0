"""Flying weight (all-up) against time in the air, a point for each build with each pack, with the
limits of weight as lines.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import log

from builder.compute.weight.mass import flown_with
from builder.pages.drawing import Anchor, Circle, Drawing, Item, Line, Words
from builder.pages.page_map import SHEET, page_address
from builder.pages.plots.axis import round_decades, round_steps
from builder.pages.summaries.summary import Summary
from builder.rounding import rounded

_LEFT, _TOP, _WIDE, _HIGH = 14.0, 9.0, 150.0, 78.0
_DOT, _TYPE = 1.1, 2.9
_FAR = 5.0  # mm from which a label needs a line to its dot
_EM = 0.5  # em a character of the condensed type on average
_GRAMS, _MINUTE = 1000.0, 60.0


@dataclass(frozen=True, slots=True)
class Dot:
    """One build with one pack: grams, minutes and the spread of the minutes; `held` is the pack and
    the payload.
    """

    build: str
    title: str
    pack: str
    held: str
    grams: float
    minutes: float
    spread: float

    @property
    def words(self) -> str:
        """What it is, with its figures."""
        return (
            f"{self.title}, {self.held}: {rounded(self.grams, 1)} g, {rounded(self.minutes, 1)} min"
        )


def points_of(summaries: Sequence[Summary]) -> tuple[Dot, ...]:
    """Every build with every pack of which both figures are known; totals that lack a part are left
    out.
    """
    out = []
    for s in summaries:
        for pack in s.packs:
            mass, time = s.numbers.get(f"all-up/{pack}"), s.numbers.get(f"endurance/{pack}")
            if (
                mass is None
                or time is None
                or not mass.value
                or not time.value
                or mass.lacks
                or time.lacks
            ):
                continue
            grams, minutes = _GRAMS * mass.value, time.value / _MINUTE
            held = flown_with(pack, s.payload)
            out.append(Dot(s.name, s.title, pack, held, grams, minutes, time.spread / _MINUTE))
    return tuple(out)


@dataclass(frozen=True, slots=True)
class _Box:
    left: float
    top: float
    right: float
    foot: float

    def meets(self, other: "_Box") -> bool:
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.foot
            and other.top < self.foot
        )


def _places(x: float, y: float) -> tuple[tuple[float, float, Anchor], ...]:
    """Where a label may stand and how it is set from there, best first."""
    right, left = x + _DOT + 0.9, x - _DOT - 0.9
    level, above, below = y + 1.0, y - 1.9, y + 3.9
    return (
        (right, level, "start"),
        (left, level, "end"),
        (right, above, "start"),
        (right, below, "start"),
        (left, above, "end"),
        (left, below, "end"),
        (x, y - 2.4, "middle"),
        (x, y + 4.6, "middle"),
        (right + 3, y + 7.5, "start"),
        (left - 3, y + 7.5, "end"),
        (right + 3, y - 5.5, "start"),
        (left - 3, y - 5.5, "end"),
    )


def _width(text: str) -> float:
    return _EM * _TYPE * len(text)


def _box_of(x: float, foot: float, anchor: Anchor, text: str) -> _Box:
    width = _width(text)
    left = x - {"start": 0.0, "middle": width / 2, "end": width}[anchor]
    return _Box(left, foot - 2.3, left + width, foot + 0.7)


_MOST_LABELLED = (
    150  # dots; among more there is hardly room for a label, and looking for it takes long
)


def _labels(dots: Sequence[tuple[float, float, str]], taken: Sequence[_Box]) -> list[Item]:
    """Labels where there is room, one that stands off with a line to its dot; a dot that finds none
    keeps its title and its row in the table.
    """
    if len(dots) > _MOST_LABELLED:
        return []
    full = [*taken, *(_Box(x - _DOT, y - _DOT, x + _DOT, y + _DOT) for x, y, _ in dots)]
    out: list[Item] = []
    for x, y, text in dots:
        for at, foot, anchor in _places(x, y):
            box = _box_of(at, foot, anchor, text)
            inside = (
                box.left >= _LEFT
                and box.right <= _LEFT + _WIDE
                and box.top >= _TOP
                and box.foot <= _TOP + _HIGH
            )
            if inside and not any(box.meets(b) for b in full):
                full.append(box)
                out.append(Words(at, foot, text, _TYPE, anchor))
                if abs(foot - y) > _FAR:
                    nearer = foot - 1 if anchor != "middle" else foot
                    out.append(Line(((x, y), (at, nearer)), "soft", width=0.15))
                break
    return out


def scatter(summaries: Sequence[Summary], limits: Sequence[tuple[str, float]]) -> Drawing | None:
    """The drawing; None with fewer than two points. `limits` are (name, kg); `up` leads to the
    site's root.
    """
    points = points_of(summaries)
    if len(points) < 2:
        return None
    marks = round_decades(min(p.grams for p in points), max(p.grams for p in points))
    times = round_steps(max(p.minutes + p.spread for p in points), 7)
    start, span = log(marks[0]), log(marks[-1]) - log(marks[0])
    foot = _TOP + _HIGH

    def x(grams: float) -> float:
        return _LEFT + _WIDE * (log(grams) - start) / span

    def y(minutes: float) -> float:
        return foot - _HIGH * max(minutes, 0.0) / times[-1]

    items: list[Item] = []
    for mark in marks:
        items.append(Line(((x(mark), _TOP), (x(mark), foot)), "hair", width=0.2))
        items.append(
            Words(x(mark), foot + 4, rounded(mark, 0 if mark >= 1 else 1), 2.8, "middle", "soft")
        )
    for time in times:
        items.append(Line(((_LEFT, y(time)), (_LEFT + _WIDE, y(time))), "hair", width=0.2))
        words = rounded(time, 0 if times[1] >= 1 else 1)
        items.append(Words(_LEFT - 1.5, y(time) + 1, words, 2.8, "end", "soft"))
    items.append(
        Words(
            _LEFT + _WIDE / 2,
            foot + 9,
            "flying weight (all-up) in grams, logarithmic scale",
            2.9,
            "middle",
        )
    )
    items.append(Words(_LEFT, _TOP - 4.5, "minutes in the air", 2.9))
    shown = [(name, _GRAMS * mass) for name, mass in limits if marks[0] < _GRAMS * mass < marks[-1]]
    taken = _limit_lines(items, [(name, x(grams)) for name, grams in shown], foot)
    for p in points:
        at, high, low = x(p.grams), y(p.minutes + p.spread), y(p.minutes - p.spread)
        items.append(Line(((at, low), (at, high)), "soft", width=0.25))
        taken.append(_Box(at - 0.3, high, at + 0.3, low))
    dots = [(x(p.grams), y(p.minutes), f"{p.title}, {p.pack}") for p in points]
    for p, (left, top, _) in zip(points, dots, strict=True):
        items.append(
            Circle(left, top, _DOT, "accent", link=page_address(p.build, SHEET), title=p.words)
        )
    items += _labels(dots, taken)
    alt = "Flying weight (all-up) and time in the air. " + "; ".join(p.words for p in points[:40])
    alt += "".join(f"; limit {name} at {rounded(grams, 1)} g" for name, grams in shown) + "."
    return Drawing("all-builds", _LEFT + _WIDE + 4, foot + 12, tuple(items), alt)


def _limit_lines(items: list[Item], lines: Sequence[tuple[str, float]], foot: float) -> list[_Box]:
    """Draws the limits, names beside their heads: to the left and the right in turn, so that near
    ones do not meet.
    """
    taken = []
    for i, (name, at) in enumerate(sorted(lines, key=lambda line: line[1])):
        items.append(Line(((at, _TOP - 1), (at, foot)), "bad", width=0.35, dash="1.6 1"))
        anchor: Anchor = "start" if i % 2 else "end"
        head = at + 1 if i % 2 else at - 1
        items.append(Words(head, _TOP + 1.8, name, _TYPE, anchor, "bad"))
        taken += [_box_of(head, _TOP + 1.8, anchor, name), _Box(at - 0.4, _TOP, at + 0.4, foot)]
    return taken
