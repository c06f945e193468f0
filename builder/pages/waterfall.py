"""A waterfall of grams from one build to the other, part by part."""

from builder.compute.difference import Difference
from builder.compute.figure import Figure
from builder.pages.drawing import Drawing, Item, Line, Rectangle, Words
from builder.pages.numbers import rounded

_ROW, _LEFT, _WIDTH = 6.0, 38.0, 92.0


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
    shown, rest = steps[:9], sum(g for _, g in steps[9:])
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

    items: list[Item] = [Line(((x(0.0), 2.0), (x(0.0), 4 + _ROW * len(shown))), "hair", width=0.3)]
    at = 0.0
    for i, (name, grams) in enumerate(shown):
        y = 4 + _ROW * i
        left, right = sorted((x(at), x(at + grams)))
        items.append(Words(_LEFT - 2, y + 3.2, name, 3.0, "end"))
        items.append(Rectangle(left, y + 0.6, max(right - left, 0.4), 3.4, "good" if grams < 0 else "bad"))
        items.append(
            Words(_LEFT + _WIDTH + 3, y + 3.2, f"{'+' if grams > 0 else ''}{rounded(grams, 1)} g", 3.0, "start")
        )
        at += grams
    height = 8 + _ROW * len(shown)
    items.append(
        Words(
            _LEFT + _WIDTH + 3,
            height - 0.5,
            f"together {'+' if at > 0 else ''}{rounded(at, 1)} g",
            3.0,
            "start",
            "strong",
        )
    )
    alt = f"Grams from {difference.first} to {difference.second}: " + ", ".join(
        f"{n} {rounded(g, 1)}" for n, g in shown
    )
    return Drawing(
        f"waterfall-{difference.first}-{difference.second}", _LEFT + _WIDTH + 34, height + 2, tuple(items), alt
    )
