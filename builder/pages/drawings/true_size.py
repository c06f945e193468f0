"""Drawings that are printed at 1:1: a ruler with its check bar, and the silhouettes of the screws."""

from builder.compute.geometry.screws import metric_screws
from builder.model.build import Build, ScrewPlace
from builder.model.kinds import Hardware
from builder.pages.drawing import Drawing, Item, Line, Rectangle, Shape, Words

BAR = 100.0  # mm, the bar by which a printed page is checked for scale
# mm, the outline of boxes on paper: they are drawn half of it smaller, so that the print has the
# size
LINE = 0.25
_ROW = 3.0  # mm between silhouettes
_WIDTH = 176.0
_LABEL = 3.9  # mm of type, 11 pt
# Head diameter and height over thread diameter, near ISO 4762, ISO 7380-1, ISO 7045 and ISO 10642
# (from memory).
_HEADS = {
    "socket": (1.85, 1.0),
    "cap": (1.85, 1.0),
    "button": (1.9, 0.55),
    "pan": (1.9, 0.75),
    "countersunk": (1.85, 0.55),
    "none": (1.0, 0.0),
}


def ruler() -> Drawing:
    """A 1:1 ruler with a bar of 100 mm: a print that is scaled shows at once."""
    left = 2.0
    items: list[Item] = [Rectangle(left + LINE / 2, 2, BAR - LINE, 3, "solid")]
    for mm in range(0, 161):
        x, foot = left + mm, 7.0 + _mark_length(mm)
        items.append(Line(((x, 7.0), (x, foot)), width=0.2))
        if mm % 10 == 0:
            items.append(Words(left + mm, 17.0, str(mm), 3.2, "middle"))
    items.append(Words(left + BAR + 3, 4.9, "100 mm: check with a rule", _LABEL))
    return Drawing(
        "ruler", 168.0, 19.0, tuple(items), "Ruler of 160 mm at true size, with a bar of 100 mm"
    )


def _mark_length(mm: int) -> float:
    """How long a mark of the ruler is: longest at whole centimetres."""
    if mm % 10 == 0:
        return 6.0
    return 4.5 if mm % 5 == 0 else 3.0


def _box(x: float, y: float, width: float, height: float) -> Rectangle:
    """A box whose print is just so large, its outline included."""
    return Rectangle(x + LINE / 2, y + LINE / 2, width - LINE, height - LINE, "fill")


def _silhouette(
    part: Hardware, thread: float, length: float, middle: float
) -> tuple[list[Item], float]:
    """A screw lying with its head to the left, around a height; and the length of the whole."""
    head = part.head or "pan"
    wide, high = (k * thread for k in _HEADS[head])
    if part.head_diameter is not None:
        wide = 1000 * part.head_diameter.value
    if head == "countersunk":  # its length counts from the top of the head
        top, bottom = middle - wide / 2 + LINE / 2, middle + wide / 2 - LINE / 2
        inner, outer = middle - thread / 2, middle + thread / 2
        low = LINE / 2
        corners = (low, top), (high, inner), (high, outer), (low, bottom)
        path = f"M {' L '.join(f'{x:.2f} {y:.2f}' for x, y in corners)} Z"
        return [_box(high, middle - thread / 2, length - high, thread), Shape(path, "")], length
    items: list[Item] = [_box(high, middle - thread / 2, length, thread)]
    if high:
        items.append(_box(0.0, middle - wide / 2, high, wide))
    return items, high + length


def _words(place: ScrewPlace, part: Hardware) -> str:
    size = (
        f"{part.thread} x {1000 * part.length.value:g}"
        if part.length is not None
        else str(part.thread)
    )
    head = f", {part.head} head" if part.head and part.head != "none" else ""
    lock = ", thread lock" if place.screw.lock else ""
    return f"{place.screw.count} × {size}{head}: {place.screw.place}{lock}"


def screw_silhouettes(build: Build) -> Drawing | None:
    """The screws of each place at true size; None where no place states a screw with thread and
    length.
    """
    items: list[Item] = []
    y = 1.0
    drawn = 0
    for place, part, diameter, long in metric_screws(build):
        thread, length = 1000 * diameter, 1000 * long
        deep = max(thread * 1.9, _LABEL)
        shape, whole = _silhouette(part, thread, length, y + deep / 2)
        items += shape
        items.append(Words(max(whole, 30.0) + 4.0, y + deep / 2 + 1.3, _words(place, part), _LABEL))
        y += deep + _ROW
        drawn += 1
    if not items:
        return None
    alt = (
        f"Screws of {drawn} places at true size, head to the left; the words beside each say what"
        " it is."
    )
    return Drawing("screws", _WIDTH, y, tuple(items), alt)
