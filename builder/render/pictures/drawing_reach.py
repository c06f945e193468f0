"""What a drawing comes to when all is drawn that its elements refer to: a few lines may draw a
billion shapes.

A `use` draws what it refers to once more. Patterns and gradients are drawn for each shape that they
fill or that inherits them, markers at each corner, clip paths and masks once. Counted is never less
than what a browser draws.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from math import fsum

from builder.render.pictures.bad_picture import BadPicture

DEEPEST = 3  # references in a row
LARGEST = 10_000_000  # of any number
DASHES = 2_000  # of the largest length in a drawing, how many dashes at most
FINEST = 200  # characters of an outline or of text that count as an element
_TOO_DEEP = f"it refers to what refers further, over {DEEPEST} times in a row"
_NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")
_URL = re.compile(r"url\(\s*#([\w-]+)\s*\)")
_SHAPES = frozenset(
    ("path", "rect", "circle", "ellipse", "line", "polyline", "polygon", "text", "tspan")
)
_FILLS = frozenset(("fill", "stroke"))
_MARKERS = frozenset(("marker-start", "marker-mid", "marker-end"))
_LENGTHS_TEXT = "d x y x1 y1 x2 y2 cx cy r rx ry points width height"
_LENGTHS = frozenset(_LENGTHS_TEXT.split())
_NUMBERS_TEXT = (
    "fx fy dx dy viewBox transform stroke-width stroke-dasharray stroke-dashoffset"
    " stroke-miterlimit font-size letter-spacing word-spacing baseline-shift rotate textLength"
    " offset gradientTransform patternTransform markerWidth markerHeight refX refY"
)
_NUMBERS = _LENGTHS | frozenset(_NUMBERS_TEXT.split())


@dataclass(frozen=True, slots=True)
class _Sum:
    """What a part of a drawing comes to: elements, shapes among them, their corners, references in
    a row.
    """

    elements: int = 0
    shapes: int = 0
    corners: int = 0
    depth: int = 0


@dataclass(eq=False)
class Element:
    """One element: its place, what lies in it, and what it refers to by kind. Grows while a drawing
    is parsed.
    """

    name: str
    place: tuple[int, int]
    weight: int = 1
    corners: int = 0
    inside: list["Element"] = field(default_factory=list)
    refers: list[tuple[str, str]] = field(default_factory=list)
    sum: _Sum | None = None
    asked: bool = False


class DrawingReach:
    """Takes the elements of one drawing in, and then says what it comes to. Local to a call."""

    def __init__(self) -> None:
        self._open: list[Element] = []
        self._named: dict[str, Element] = {}
        self._root: Element | None = None
        self._dashes: list[tuple[float, tuple[int, int]]] = []
        self._largest = 0.0

    def start(self, name: str, attributes: Mapping[str, str], place: tuple[int, int]) -> None:
        """An element with the attributes and declarations that are kept of it."""
        made = Element(name, place)
        for key, value in attributes.items():
            self._attribute(made, key, value)
        if self._open:
            self._open[-1].inside.append(made)
        else:
            self._root = made
        self._open.append(made)

    def end(self) -> None:
        """The end of the last element that was begun."""
        self._open.pop()

    def text(self, characters: int) -> None:
        """Text inside of the last element that was begun."""
        self._open[-1].weight += -(-characters // FINEST) if characters > FINEST else 0

    def _attribute(self, element: Element, key: str, value: str) -> None:
        if key == "id":
            self._named.setdefault(value, element)  # of two with one name a browser takes the first
        elif key == "href":
            element.refers.append(("href", value.removeprefix("#")))
        element.refers += [(key, name) for name in _URL.findall(value)]
        numbers = [abs(float(n)) for n in _NUMBER.findall(value)] if key in _NUMBERS else []
        if any(n > LARGEST for n in numbers):
            raise BadPicture(f"its {key} holds a number over {LARGEST}")
        if key in _LENGTHS:
            self._largest = max([self._largest, *numbers])
        if key in ("d", "points"):
            element.corners += len(numbers) if key == "d" else -(-len(numbers) // 2)
            element.weight += len(value) // FINEST
        elif element.name == "line" and not element.corners:
            element.corners = 2
        if key == "stroke-dasharray" and numbers:
            self._dashes.append((fsum(numbers) / len(numbers), element.place))

    def check(self, most: int) -> None:
        """BadPicture where more than so many elements are drawn, or references go round or too
        deep.
        """
        if self._root is None:
            return
        found = self._sum_of(self._root)
        if found.elements > most:
            raise BadPicture(
                f"it draws over {most} elements, with all that it draws again",
                self._dearest().place,
            )
        for mean, place in self._dashes:
            if 0 < mean < self._largest / DASHES:
                raise BadPicture(
                    f"its dashes are finer than a {DASHES}th of its largest length", place
                )

    def _dearest(self) -> Element:
        """The deepest element that most of what is drawn hangs on."""
        at = self._root
        assert at is not None
        while at.inside:
            inner = max(at.inside, key=lambda e: e.sum.elements if e.sum else 0)
            if inner.sum is None or at.sum is None or 2 * inner.sum.elements < at.sum.elements:
                break
            at = inner
        return at

    def _sum_of(self, e: Element, row: int = 0) -> _Sum:
        if e.sum is not None:
            return e.sum
        if e.asked:
            raise BadPicture("it refers to itself in a circle", e.place)
        if row > DEEPEST:
            raise BadPicture(_TOO_DEEP, e.place)
        e.asked = True
        elements, corners, depth = e.weight, e.corners, 0
        shapes = int(e.name in _SHAPES)
        for inner in e.inside:
            found = self._sum_of(inner, row)
            elements += found.elements
            shapes += found.shapes
            corners += found.corners
            depth = max(depth, found.depth)
        for kind, name in sorted(
            e.refers, key=lambda r: r[0] != "href"
        ):  # what a `use` draws inherits the others
            if name not in self._named:
                continue
            found = self._sum_of(self._named[name], row + 1)
            depth = max(depth, found.depth + 1)
            times = corners if kind in _MARKERS else 1
            if kind in _FILLS:
                times = shapes
            elements += times * found.elements
            if e.name == "use" and kind == "href":
                shapes += found.shapes
                corners += found.corners
        if depth > DEEPEST:
            raise BadPicture(_TOO_DEEP, e.place)
        e.sum = _Sum(elements, shapes, corners, depth)
        return e.sum
