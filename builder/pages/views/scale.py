"""From metres of the aircraft to millimetres of a view, and what all views share: nose, motors'
discs with their turn, centres of mass, the bar of scale.
"""

from itertools import pairwise
from math import cos, pi, sin

from builder.compute.figures.figure import Figure
from builder.compute.flight.flight import BAND
from builder.compute.geometry.clearances import Disc, discs
from builder.frozen import value_class
from builder.model.build import Build
from builder.pages.drawing import Circle, Item, Line, Shape, Words
from builder.pages.views.balloons import TYPE
from builder.pages.views.bodies import Body, bodies, rotor_places

WIDTH = 100.0  # mm of every view: what a phone shows with type that can be read
SIDE = 8.0  # mm at each side for the balloons
PLAIN_SIDE = 2.0  # mm at each side of a view without balloons
Reach = tuple[float, float]
PagePlace = tuple[float, float]


@value_class(frozen=True, slots=True)
class Extent:
    """How far the aircraft reaches in m: rear and front, right and left, bottom and top."""

    along: Reach
    across: Reach
    tall: Reach


def extent_of(build: Build) -> Extent:
    """What all discs, motors and bodies reach together."""
    swept = discs(build)
    found = bodies(build)
    turning = [(d.middle, d.radius) for d in swept]
    turning += [(place, 0.0) for place in rotor_places(build).values()]
    along = [e for b in found for e in b.span] + [p[0] + w * r for p, r in turning for w in (-1, 1)]
    across = [e for b in found for e in b.across]
    across += [p[1] + w * r for p, r in turning for w in (-1, 1)]
    tall = [e for b in found for e in (b.low, b.high)] + [p[2] for p, _ in turning] + [0.0]
    return Extent(_reach(along), _reach(across), _reach(tall))


def _reach(values: list[float]) -> Reach:
    return min(values, default=0.0), max(values, default=0.0)


def scale_of(extent: Extent, side: float) -> float:
    """How many mm of paper a metre has: the same for all views of an aircraft."""
    longest = max(extent.along[1] - extent.along[0], extent.across[1] - extent.across[0])
    return (WIDTH - 2 * side) / max(longest, 0.01)


def turn_arrow(x: float, y: float, radius: float, clockwise: bool) -> list[Item]:
    """A quarter of an arc with its head at the end; y points down, so clockwise angles grow."""
    way = 1 if clockwise else -1
    start = -pi / 2 - way * pi / 4
    end = start + way * pi / 2
    (x0, y0), (x1, y1) = ((x + radius * cos(t), y + radius * sin(t)) for t in (start, end))
    sweep = 1 if clockwise else 0
    arc = f"M{x0:.1f} {y0:.1f}A{radius:.1f} {radius:.1f} 0 0 {sweep} {x1:.1f} {y1:.1f}"
    back = end - way * 0.3
    heads = []
    for more in (-1.0, 1.0):
        hx, hy = x + (radius + more) * cos(back), y + (radius + more) * sin(back)
        heads.append((hx, hy))
    (ax, ay), (bx, by) = heads
    return [Shape(f"{arc}M{ax:.1f} {ay:.1f}L{x1:.1f} {y1:.1f}L{bx:.1f} {by:.1f}", "accent")]


def disc_items(x: float, y: float, disc: Disc, scale: float) -> Item:
    """The edge of a disc."""
    return Circle(x, y, scale * disc.radius, "disc")


def centre_mark(x: float, y: float) -> list[Item]:
    """The sign of a centre of mass: a circle with two quarters filled (common practice, no source)."""
    r = 1.6
    quarters = f"M{x:.2f} {y:.2f}V{y - r:.2f}A{r} {r} 0 0 1 {x + r:.2f} {y:.2f}Z"
    quarters += f"M{x:.2f} {y:.2f}V{y + r:.2f}A{r} {r} 0 0 1 {x - r:.2f} {y:.2f}Z"
    return [Circle(x, y, r, "paper ring"), Shape(quarters, "solid")]


def band_of(figure: Figure) -> Reach:
    """From the lower to the upper end that hold four cases of five; the value itself without a
    spread.
    """
    return figure.band(BAND) if figure.spread else (figure.value, figure.value)


def scale_bar(scale: float, y: float, x: float) -> list[Item]:
    """A bar of a round length, with the length."""
    length = next((mm for mm in (100, 50, 20, 10) if mm * scale / 1000 <= 34.0), 10)
    end = x + length * scale / 1000
    ticks = (((x, y - 1.0), (x, y + 1.0)), ((end, y - 1.0), (end, y + 1.0)))
    lines: list[Item] = [Line(((x, y), (end, y))), *(Line(t) for t in ticks)]
    return [*lines, Words(end + 1.5, y + 0.35 * TYPE, f"{length} mm", TYPE)]


def _short(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")


def closed_path(points: list[tuple[float, float]]) -> str:
    """A closed line through points, level and upright pieces by one number."""
    at = [(_short(x), _short(y)) for x, y in points]
    out = [f"M{at[0][0]} {at[0][1]}"]
    for (x0, y0), (x, y) in pairwise(at):
        upright = f"V{y}" if x == x0 else f"L{x} {y}"
        out.append(f"H{x}" if y == y0 else upright)
    return "".join(out) + "Z"


def point_sign(x: float, y: float) -> Item:
    """A small rhomb: a part whose place is stated and whose size is not."""
    return Shape(f"M{_short(x)} {_short(y - 1)}l1 1-1 1-1-1Z", "body")


def outline(points: list[tuple[float, float]], body: Body, hidden: bool) -> Item:
    """A body's outline: full where it is seen, broken where something lies over it, chain-dotted for
    what is put on last (ISO 128-2).
    """
    path = closed_path(points)
    if body.loose:
        return Shape(path, "phantom")
    return Shape(path, "hidden" if hidden else "body")
