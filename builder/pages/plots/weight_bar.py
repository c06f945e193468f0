"""A drawn bar of where the grams are: one piece for each group, the payload and the pack, largest
first.
"""

from dataclasses import replace
from math import fsum

from builder.compute.figures.figure import Figure
from builder.compute.weight.mass import MassTable
from builder.frozen import value_class
from builder.pages.drawing import Anchor, Drawing, Item, Line, Rectangle, Words
from builder.pages.numbers import number
from builder.pages.page_map import number_address

_HEIGHT, _TYPE = 9.0, 3.4
_LETTER = 0.62  # width of a letter by the size of type, at most
_PAGE = (100.0, 6.8)  # width, and from one row of words to the next, in mm: a finger on a phone
_TONES = ("solid", "accent", "soft", "fill")


def _side(middle: float, words: str, width: float) -> tuple[float, Anchor]:
    """Where words begin beside their line, and to which side of it: that which has room for them."""
    room = _LETTER * _TYPE * len(words)
    if middle > width / 2 and middle + room > width:
        return middle - 1.0, "end"
    return middle + 1.0, "start"


@value_class(frozen=True, slots=True)
class BarLimit:
    """A limit that the bar is held against, and the ends of the band of the weight, in kg."""

    words: str
    bound: float
    band: tuple[float, float]


def _limit_items(limits: tuple[BarLimit, ...], scale: float, width: float) -> list[Item]:
    """The band of the whole weight over the bar's end, and each limit as a line with its words."""
    items: list[Item] = []
    for low, high in dict.fromkeys(limit.band for limit in limits):
        ends = scale * low, scale * max(high, low + 0.4 / scale)
        items.append(Line(((ends[0], -1.2), (ends[1], -1.2)), width=1.2))
    for k, limit in enumerate(limits):
        x, y = scale * limit.bound, -3.6 - 4.4 * k
        items.append(Line(((x, y + 1.0), (x, _HEIGHT)), "bad", "", 0.5, "1.4 0.7"))
        items.append(Words(min(x + 1.0, width - 0.5), y + 1.0, limit.words, _TYPE, "end", "bad"))
    return items


def _shifted(items: list[Item], down: float) -> list[Item]:
    """The same further down."""
    out: list[Item] = []
    for item in items:
        if isinstance(item, Line):
            out.append(replace(item, points=tuple((x, y + down) for x, y in item.points)))
        elif isinstance(item, Rectangle | Words):
            out.append(replace(item, y=item.y + down))
    return out


def weight_bar(
    build: str,
    mass: MassTable,
    mark: str = "",
    sizes: tuple[float, float] = _PAGE,
    limits: tuple[BarLimit, ...] = (),
) -> Drawing | None:
    """The bar of the first pack's all-up sum (or of all but a pack without one); None where nothing
    weighs. `mark` tells two bars of one build apart; `sizes` are its width and that of a row. With
    `limits` it is drawn to the scale at which the largest of them still stands on the page.
    """
    full, row = sizes
    parts: list[tuple[str, Figure]] = list(mass.groups.items())
    carried = [(f"payload {x.key}", x.line) for x in mass.payload]
    packs = [(f"battery {key}", x.line) for key, x in list(mass.packs.items())[:1]]
    parts += [(words, line) for words, line in (*carried, *packs) if isinstance(line, Figure)]
    parts = sorted((p for p in parts if p[1].value > 0), key=lambda p: (-p[1].value, p[0]))
    whole = fsum(f.value for _, f in parts)
    if whole <= 0:
        return None
    most = max([whole, *(n.bound for n in limits), *(n.band[1] for n in limits)])
    scale = (full - 1.0 if limits else full) / most
    items: list[Item] = []
    x = 0.0
    for i, (label, figure) in enumerate(parts):
        width = scale * figure.value
        said = number(figure)
        words = f"{label} {said.value} {said.unit}"
        link = number_address(build, figure.anchor)
        items.append(Rectangle(x, 0.0, width, _HEIGHT, tone=_TONES[i % len(_TONES)], title=words))
        below = _HEIGHT + row * (i + 1)
        middle = x + width / 2
        items.append(Line(((middle, _HEIGHT), (middle, below - 1.2)), tone="hair"))
        at, anchor = _side(middle, words, full)
        items.append(Words(at, below, words, _TYPE, anchor, link=link))
        x += width
    alt = (
        "Where the grams are: "
        + ", ".join(f"{label} {number(f).value} g" for label, f in parts)
        + "."
    )
    lacking = [x.label for x in (*mass.lines, *mass.payload) if not isinstance(x.line, Figure)]
    lacking += [p.label for p in list(mass.packs.values())[:1] if not isinstance(p.line, Figure)]
    if lacking:
        alt += f" Not known, and left out: {', '.join(lacking)}."
    high = _HEIGHT + row * (len(parts) + 1)
    if limits:
        head = 4.4 * len(limits) + 3.0
        items = _shifted([*items, *_limit_items(limits, scale, full)], head)
        high += head
        alt += " Limits: " + ", ".join(n.words for n in limits) + "."
    return Drawing(f"{build}{mark}-weight", full, high, tuple(items), alt)
