"""A waterfall of grams from one build to the other, part by part."""

from math import fsum

from builder.compute.compare.difference import Difference
from builder.compute.figures.figure import Figure, MaybeFigure
from builder.pages.drawing import Drawing, Item, Line, Rectangle, Words
from builder.rounding import rounded

_ROW, _LEFT, _WIDTH = 5.0, 34.0, 66.0


def _signed(grams: float) -> str:
    return f"{'+' if grams > 0 else ''}{rounded(grams, 1)} g"


def _total(items: list[Item], x: float, y: float, build: str, dry: MaybeFigure) -> None:
    """A build's dry weight in words at its place on the scale; the words lean to where there is
    room.
    """
    if isinstance(dry, Figure):
        text = f"{build} {rounded(1000 * dry.value, 1)} g"
        right = x < _LEFT + _WIDTH / 2
        items.append(Words(x, y - 0.6, text, 3.0, "start" if right else "end", "strong"))


def waterfall(difference: Difference) -> Drawing | None:
    """Bars from the first build's dry weight to the second's; none where no part differs in grams."""
    steps = [
        (p.key, 1000 * p.grams.value)
        for p in difference.parts
        if isinstance(p.grams, Figure) and abs(p.grams.value) >= 0.00005
    ]
    if not steps:
        return None
    steps.sort(key=lambda s: (-abs(s[1]), s[0]))
    shown, rest = steps[:9], fsum(g for _, g in steps[9:])
    if abs(rest) >= 0.05:
        shown.append((f"{len(steps) - 9} others", rest))
    at, reach = 0.0, [0.0]
    for _, grams in shown:
        at += grams
        reach.append(at)
    low, high = min(reach), max(reach)
    scale = _WIDTH / max(high - low, 0.1)

    def x(value: float) -> float:
        return _LEFT + (value - low) * scale

    items: list[Item] = []
    at, y = 0.0, 5.0
    _total(items, x(at), y, difference.first, difference.dry.first)
    for name, grams in shown:
        left, right = sorted((x(at), x(at + grams)))
        items.append(Words(_LEFT - 2, y + 3.2, name, 3.0, "end"))
        items.append(
            Rectangle(left, y + 0.6, max(right - left, 0.4), 3.4, "good" if grams < 0 else "bad")
        )
        items.append(Words(_LEFT + _WIDTH + 3, y + 3.2, _signed(grams), 3.0))
        at += grams
        items.append(Line(((x(at), y + 0.6), (x(at), y + _ROW + 0.6)), "soft", width=0.2))
        y += _ROW
    items.append(
        Words(_LEFT + _WIDTH + 3, y + 3.2, f"together {_signed(at)}", 3.0, "start", "strong")
    )
    _total(items, x(at), y + 3.2, difference.second, difference.dry.second)
    changes = ", ".join(f"{n} {rounded(g, 1)}" for n, g in shown)
    alt = f"Grams from {difference.first} to {difference.second}: {changes}"
    return Drawing(
        f"waterfall-{difference.first}-{difference.second}",
        _LEFT + _WIDTH + 28,
        y + 6,
        tuple(items),
        alt,
    )
