"""Choices as points: flying weight against time in the air, with the price beside each."""

from collections.abc import Sequence
from math import floor

from builder.compute.figures.figure import Figure
from builder.pages.drawing import Circle, Drawing, Item, Line, Words
from builder.pages.plots.axis import round_step, round_steps
from builder.pages.plots.dot_labels import DOT, dot_labels
from builder.rounding import rounded
from builder.rules.choose.search import ChosenSwaps

_LEFT, _TOP, _WIDE, _HIGH = 12.0, 8.0, 96.0, 50.0
_GRAMS, _MINUTE = 1000.0, 60.0
NumberedChoice = tuple[str, ChosenSwaps]


def _point(one: ChosenSwaps) -> tuple[float, float]:
    """Grams and minutes."""
    time = one.figures.time
    minutes = time.value / _MINUTE if isinstance(time, Figure) else 0.0
    return _GRAMS * one.figures.mass.value, minutes


def _weights(grams: Sequence[float]) -> tuple[float, ...]:
    """Round marks from below the lightest to above the heaviest."""
    least, most = min(grams), max(grams)
    step = round_step(max(most - least, 1.0), 5)
    first = floor(least / step)
    many = floor(most / step) + 2 - first
    return tuple(step * (first + n) for n in range(many))


def choice_picture(build: str, choices: Sequence[NumberedChoice]) -> Drawing | None:
    """The drawing; None with fewer than two points."""
    if len(choices) < 2:
        return None
    points = [_point(one) for _, one in choices]
    marks = _weights([grams for grams, _ in points])
    times = round_steps(max(minutes for _, minutes in points), 6)
    foot, per_gram = _TOP + _HIGH, _WIDE / (marks[-1] - marks[0])
    items: list[Item] = []
    for mark in marks:
        x = _LEFT + (mark - marks[0]) * per_gram
        items.append(Line(((x, _TOP), (x, foot)), "hair", width=0.2))
        items.append(Words(x, foot + 4, rounded(mark, 0), 2.8, "middle", "soft"))
    for time in times:
        y = foot - _HIGH * time / times[-1]
        items.append(Line(((_LEFT, y), (_LEFT + _WIDE, y)), "hair", width=0.2))
        places = 0 if times[1] >= 1 else 1
        items.append(Words(_LEFT - 1.5, y + 1, rounded(time, places), 2.8, "end", "soft"))
    items.append(Words(_LEFT + _WIDE / 2, foot + 9, "flying weight in grams", 2.9, "middle"))
    items.append(Words(_LEFT, _TOP - 3.5, "minutes in the air", 2.9))
    said: list[str] = []
    names: list[str] = []
    dots = [
        (_LEFT + (grams - marks[0]) * per_gram, foot - _HIGH * minutes / times[-1])
        for grams, minutes in points
    ]
    for (mark_, one), (grams, minutes), (x, y) in zip(choices, points, dots, strict=True):
        price = f"{rounded(one.figures.price.value, 0)} {one.figures.price.unit}"
        words = f"{mark_}: {rounded(grams, 1)} g, {rounded(minutes, 1)} min, {price}"
        items.append(Circle(x, y, DOT, "accent", link=f"#choice-{mark_}", title=words))
        names.append(f"{mark_}, {price}")
        said.append(words)
    room = _LEFT, _TOP - 1, _LEFT + _WIDE + 4, foot
    items += dot_labels(dots, names, room)
    alt = "Choices by flying weight and time in the air. " + "; ".join(said) + "."
    return Drawing(f"choices-{build}", _LEFT + _WIDE + 6, foot + 12, tuple(items), alt)
