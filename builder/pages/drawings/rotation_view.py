"""Which way the propellers turn, on the build's own outline seen from above: frame, arms, discs and
battery, nose up.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import combinations
from math import cos, dist, pi, sin

from builder.compute.geometry.clearances import discs, motor_places
from builder.compute.setup.settings import MotorPlace
from builder.model.build import Build
from builder.model.kinds import Frame
from builder.pages.drawing import Circle, Drawing, Item, Line, Rectangle, Words

_SPAN = 80.0  # mm of paper from edge to edge of the outer discs
_EDGE = 2.0
_LETTER = 1.25  # mm of paper that a letter of a turn is wide, in the mean
_NOSE = 9.0  # mm of paper for the nose above the discs
# Signs of forward and left of each corner; for a frame whose motors have no places.
_CORNERS = {
    "front left": (1.0, 1.0),
    "front right": (1.0, -1.0),
    "rear right": (-1.0, -1.0),
    "rear left": (-1.0, 1.0),
}
_USUAL_RADIUS = 0.72  # of a disc, over half the distance between neighbours
_HALF_BODY = 0.3  # of the body's plate, over half the distance between neighbours

FloorPlace = tuple[float, float]


@dataclass(frozen=True)
class Outline:
    """What is drawn, in m forward and left of the frame's middle: motors by number, the radius of a
    propeller, and the battery's middle with its length and width, where they are known.
    """

    motors: Mapping[str, FloorPlace]
    radius: float
    battery: tuple[float, float, float, float] | None = None


_WAYS = {"front": (1.0, 0.0), "rear": (-1.0, 0.0), "left": (0.0, 1.0), "right": (0.0, -1.0)}


def _agrees(place: FloorPlace, corner: str) -> bool:
    """Whether a place lies where the words of a corner say; a word that is no way says nothing."""
    ways = [_WAYS[word] for word in corner.split() if word in _WAYS]
    return bool(ways) and all(place[0] * f + place[1] * s > 0 for f, s in ways)


def _half_apart(places: Mapping[str, FloorPlace]) -> float:
    """Half the distance of the two motors that are nearest to each other; 0 where two are above each
    other.
    """
    return min((dist(a, b) for a, b in combinations(places.values(), 2)), default=0.0) / 2


def _battery(build: Build) -> tuple[float, float, float, float] | None:
    """Middle, length and width of the first battery that has a place, several that are joined as
    one.
    """
    for pack in build.packs.values():
        size, seats = pack.part.size, pack.seats
        if size is None or not seats:
            continue
        long, wide = size.along[:2]
        ahead = [s.x + e for s in seats for e in (-long / 2, long / 2)]
        aside = [s.y + e for s in seats for e in (-wide / 2, wide / 2)]
        middle = (max(ahead) + min(ahead)) / 2, (max(aside) + min(aside)) / 2
        return (*middle, max(ahead) - min(ahead), max(aside) - min(aside))
    return None


def outline_of(build: Build, motors: tuple[MotorPlace, ...]) -> Outline | None:
    """The build's own places and discs; a plain square for four corners of a frame whose motors have
    no places, or others than the settings say. None where such a frame has another layout, and
    where propellers are above each other.
    """
    places = {k: (p[0], p[1]) for k, p in motor_places(build).items()}
    own = all(m.number in places and _agrees(places[m.number], m.corner) for m in motors)
    if not own or not build.of_kind(Frame):
        if {m.corner for m in motors} != set(_CORNERS):
            return None
        return Outline({m.number: _CORNERS[m.corner] for m in motors}, _USUAL_RADIUS)
    found = {k: places[k] for k in (m.number for m in motors)}
    half = _half_apart(found)
    if half == 0.0:
        return None
    radius = max((d.radius for d in discs(build)), default=_USUAL_RADIUS * half)
    return Outline(found, radius, _battery(build))


@dataclass(frozen=True)
class _Paper:
    """From m forward and left to mm right and down."""

    scale: float
    left: float
    top: float

    def at(self, forward: float, left: float) -> tuple[float, float]:
        return self.left - self.scale * left, self.top - self.scale * forward


def _turning(x: float, y: float, radius: float, clockwise: bool) -> list[Item]:
    """An arc three quarters round with an arrow head at its end; y points down, so clockwise angles
    grow.
    """
    way, steps = 1 if clockwise else -1, 36
    start = pi if clockwise else 0.0
    turns = [start + way * 1.5 * pi * k / steps for k in range(steps + 1)]
    points = tuple((x + radius * cos(t), y + radius * sin(t)) for t in turns)
    arc = Line(points, tone="accent", width=0.5)
    back, tip = x + way * 2.5, y + radius
    head = ((back, tip - 2.0), (x, tip), (back, tip + 2.0))
    return [arc, Line(head, tone="accent", width=0.5)]


def _body(drawn: Outline, paper: _Paper) -> list[Item]:
    """Arms from the middle to the motors, the plate, the nose, and the battery on it."""
    middle = paper.at(0.0, 0.0)
    items: list[Item] = [
        Line((middle, paper.at(*place)), tone="soft", width=2.0) for place in drawn.motors.values()
    ]
    half = _HALF_BODY * _half_apart(drawn.motors)
    x, y = paper.at(2.2 * half, half)
    wide, high = 2 * half * paper.scale, 4.4 * half * paper.scale
    items.append(Rectangle(x, y, wide, high, "fill", radius=1.5))
    nose = ((middle[0] - 2.0, 9.0), (middle[0], 6.5), (middle[0] + 2.0, 9.0))
    items.append(Line(nose, width=0.4))
    if drawn.battery is not None:
        fore, left, long, across = drawn.battery
        x, y = paper.at(fore + long / 2, left + across / 2)
        items.append(Rectangle(x, y, across * paper.scale, long * paper.scale, "pad", radius=1.0))
        x, y = paper.at(fore, left)
        items.append(Words(x + 1.0, y, "battery", 3.0, "middle", turn=-90.0))
    return items


def _named(x: float, y: float, wide: float, motor: MotorPlace) -> list[Item]:
    """Number and turn on a disc, the turn in two lines where the disc is small."""
    lines = [motor.turns]
    if _LETTER * len(motor.turns) > wide:
        lines = motor.turns.replace("-", "- ").split()
    top = y - 1.0 - 1.7 * (len(lines) - 1)
    items: list[Item] = [
        Rectangle(x - wide / 2, top - 3.6, wide, 5.4 + 3.4 * len(lines), "paper", radius=1.0),
        Words(x, top, f"motor {motor.number}", 3.2, "middle"),
    ]
    for k, line in enumerate(lines):
        items.append(Words(x, top + 4.4 + 3.2 * k, line, 2.8, "middle"))
    return items


def rotation_view(
    name: str, motors: tuple[MotorPlace, ...], props: str, outline: Outline
) -> Drawing | None:
    """Motor numbers and turns on the outline; None where a motor's turn is not said."""
    if not all(m.turns for m in motors):
        return None
    fore = [p[0] for p in outline.motors.values()]
    left = [p[1] for p in outline.motors.values()]
    scale = _SPAN / (max(left) - min(left) + 2 * outline.radius)
    paper = _Paper(
        scale,
        _EDGE + scale * (max(left) + outline.radius),
        _NOSE + scale * (max(fore) + outline.radius),
    )
    items: list[Item] = [*_body(outline, paper), Words(paper.left, 5.0, "nose", 3.0, "middle")]
    for m in motors:
        x, y = paper.at(*outline.motors[m.number])
        radius = scale * outline.radius
        items.append(Circle(x, y, radius))
        items += _turning(x, y, 0.88 * radius, m.turns == "clockwise")
        items += _named(x, y, 1.32 * radius, m)
    bottom = _NOSE + scale * (max(fore) - min(fore) + 2 * outline.radius)
    if props:
        words = f"front blades move {props}ward at the nose"
        items.append(Words(paper.left, bottom + 5.0, words, 3.2, "middle"))
    said = ", ".join(f"motor {m.number} {m.corner} {m.turns}" for m in motors)
    size = _SPAN + 2 * _EDGE
    alt = f"Seen from above, nose up: {said}."
    return Drawing(f"{name}-rotation", size, bottom + 8.0, tuple(items), alt)
