"""An overview of the wiring that a phone shows whole: a box a device, and a line a bundle with the
number of its wires.
"""

from collections import Counter
from itertools import pairwise
from math import fsum

from builder.compute.circuit.nets import Netlist
from builder.frozen import value_class
from builder.model.build import Build
from builder.pages.blocks import Block, Illustration
from builder.pages.drawing import Drawing, Item, Line, Rectangle, Words
from builder.pages.drawings.boards import drawn_boards
from builder.pages.drawings.layout import columns
from builder.pages.drawings.text_size import words_width

_TYPE = 3.1  # mm
_HIGH, _STEP = 6.0, 8.6  # mm, a box of a device, and from one to the next
_GAP = 15.0  # mm between columns
_ROW = 4.3
_PHONE = 100.0  # mm that a phone shows with type that can be read
BundleEnds = tuple[str, str]


@value_class(frozen=True, slots=True)
class DeviceBox:
    """A device: its name and its box."""

    name: str
    x: float
    y: float
    width: float
    height: float

    @property
    def middle(self) -> float:
        """How far down its middle lies."""
        return self.y + self.height / 2


def bundles(build: Build, nets: Netlist) -> dict[BundleEnds, int]:
    """How many wires join each two devices, by their names in alphabetical order."""
    found: Counter[BundleEnds] = Counter()
    for join in drawn_boards(build, nets).joins:
        first, second = sorted((join.a.board, join.b.board))
        if first != second:
            found[first, second] += 1
    return dict(found)


def _width(names: list[str]) -> float:
    return max((words_width(n, _TYPE) for n in names), default=0.0) + 2.5


def _column(names: list[str], x: float, height: float, *, fill: bool) -> list[DeviceBox]:
    """Boxes of a column over its height; those in the middle fill it."""
    step = height / max(len(names), 1)
    width = _width(names)
    out = []
    for i, name in enumerate(names):
        tall = step - (_STEP - _HIGH) if fill else _HIGH
        out.append(DeviceBox(name, x, step * i + (step - tall) / 2, width, tall))
    return out


def _ports(box: DeviceBox, others: list[DeviceBox]) -> dict[str, float]:
    """Where the bundles of one side end at a box of the middle, in the order of their devices."""
    step = box.height / (len(others) + 1)
    return {o.name: box.y + step * (i + 1) for i, o in enumerate(others)}


def _box_items(box: DeviceBox) -> list[Item]:
    at = box.x + box.width / 2, box.middle + 0.35 * _TYPE
    words = Words(*at, box.name, _TYPE, "middle", "strong")
    return [Rectangle(box.x, box.y, box.width, box.height, "fill", 1.0), words]


def _side_items(
    side: list[DeviceBox], middle: list[DeviceBox], found: dict[BundleEnds, int], *, left: bool
) -> list[Item]:
    """The bundles of one side, each with its number where it leaves its device."""
    items: list[Item] = []
    for box in middle:
        mine = [o for o in side if _ends(o.name, box.name) in found]
        ports = _ports(box, mine)
        for other in mine:
            start = other.x + other.width if left else other.x
            end = box.x if left else box.x + box.width
            centres = [b.name for b in middle if _ends(other.name, b.name) in found]
            y = other.y + other.height * (centres.index(box.name) + 1) / (len(centres) + 1)
            way = 1.0 if left else -1.0
            points = ((start, y), (start + way * 5.0, y), (end, ports[other.name]))
            items.append(Line(points, "", width=0.6))
            said = str(found[_ends(other.name, box.name)])
            at = _number_at(start + way * 1.0, y, way, centres.index(box.name), len(centres))
            items.append(Words(*at, said, _TYPE, "start" if left else "end"))
    return items


def _number_at(x: float, y: float, way: float, place: int, count: int) -> tuple[float, float]:
    """Where the number of a bundle stands: above its line, the last of two below it; of more than two
    each further along.
    """
    if count == 2 and place == 1:
        return x, y + 0.8 * _TYPE
    return x + (way * 3.0 * place if count > 2 else 0.0), y - 0.7


def _ends(first: str, second: str) -> BundleEnds:
    return (first, second) if first < second else (second, first)


def _middle_items(middle: list[DeviceBox], found: dict[BundleEnds, int]) -> list[Item]:
    items: list[Item] = []
    for upper, lower in pairwise(middle):
        count = found.get(_ends(upper.name, lower.name))
        if count is None:
            continue
        x = upper.x + upper.width / 2
        items.append(Line(((x, upper.y + upper.height), (x, lower.y)), width=0.6))
        items.append(Words(x + 1.0, lower.y - 0.2, str(count), _TYPE))
    return items


def bundle_drawing(build: Build, nets: Netlist) -> Drawing:
    """All devices with the number of wires between each two."""
    placed = columns(drawn_boards(build, nets))
    found = bundles(build, nets)
    names = [[b.board.name for b in col] for col in (placed.left, placed.middle, placed.right)]
    widths = [_width(n) for n in names]
    gap = max(_GAP, (_PHONE - fsum(widths)) / 2)
    height = _STEP * max(len(n) for n in names)
    starts = 0.5, 0.5 + widths[0] + gap, 0.5 + widths[0] + gap + widths[1] + gap
    left = _column(names[0], starts[0], height, fill=False)
    middle = _column(names[1], starts[1], height, fill=True)
    right = _column(names[2], starts[2], height, fill=False)
    items: list[Item] = [
        *_side_items(left, middle, found, left=True),
        *_side_items(right, middle, found, left=False),
        *_middle_items(middle, found),
        *(i for box in (*left, *middle, *right) for i in _box_items(box)),
    ]
    order = names[1]
    drawn = {_ends(o, m) for o in names[0] + names[2] for m in order}
    drawn |= {_ends(a, b) for a, b in pairwise(order)}
    y = height
    for ends, count in sorted(found.items()):
        if ends not in drawn:
            y += _ROW
            items.append(Words(0.5, y, f"{ends[0]} to {ends[1]}: {count}", _TYPE))
    said = "; ".join(f"{a} to {b} {count}" for (a, b), count in sorted(found.items()))
    alt = f"Bundles of {build.title}, with the number of wires of each: {said}."
    return Drawing(f"bundles-{build.name}", starts[2] + widths[2] + 0.5, y + 2.0, tuple(items), alt)


def bundle_overview(build: Build, nets: Netlist) -> list[Block]:
    """The overview as a block; none where nothing is wired."""
    if not bundles(build, nets):
        return []
    caption = "The bundles, each with the number of its wires and contacts of plugs."
    return [Illustration(bundle_drawing(build, nets), caption, "wiring-bundles")]
