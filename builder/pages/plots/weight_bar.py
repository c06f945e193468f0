"""A drawn bar of where the grams are: one piece for each group, the payload and the pack, largest
first.
"""

from builder.compute.figures.figure import Figure
from builder.compute.weight.mass import MassTable
from builder.pages.drawing import Drawing, Item, Line, Rectangle, Words
from builder.pages.numbers import number
from builder.pages.page_map import number_address

_WIDTH, _HEIGHT, _ROW = 170.0, 9.0, 5.8
_TONES = ("solid", "accent", "soft", "fill")


def weight_bar(build: str, mass: MassTable, mark: str = "") -> Drawing | None:
    """The bar of the first pack's all-up sum (or of all but a pack without one); None where nothing
    weighs. `mark` tells two bars of one build apart.
    """
    parts: list[tuple[str, Figure]] = list(mass.groups.items())
    carried = [(f"payload {x.key}", x.line) for x in mass.payload]
    packs = [(f"battery {key}", x.line) for key, x in list(mass.packs.items())[:1]]
    parts += [(words, line) for words, line in (*carried, *packs) if isinstance(line, Figure)]
    parts = sorted((p for p in parts if p[1].value > 0), key=lambda p: (-p[1].value, p[0]))
    whole = sum(f.value for _, f in parts)
    if whole <= 0:
        return None
    items: list[Item] = []
    x = 0.0
    for i, (label, figure) in enumerate(parts):
        width = _WIDTH * figure.value / whole
        said = number(figure)
        words = f"{label} {said.value} {said.unit}"
        link = number_address(build, figure.anchor)
        items.append(Rectangle(x, 0.0, width, _HEIGHT, tone=_TONES[i % len(_TONES)], title=words))
        below = _HEIGHT + _ROW * (i + 1)
        middle = x + width / 2
        items.append(Line(((middle, _HEIGHT), (middle, below - 1.2)), tone="hair"))
        at_end = middle > _WIDTH * 0.6
        text_x = middle - 1.0 if at_end else middle + 1.0
        items.append(Words(text_x, below, words, 3.0, "end" if at_end else "start", link=link))
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
    return Drawing(
        f"{build}{mark}-weight", _WIDTH, _HEIGHT + _ROW * (len(parts) + 1), tuple(items), alt
    )
