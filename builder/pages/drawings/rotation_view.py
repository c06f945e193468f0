"""Which way motors turn, as a drawing of the aircraft seen from above."""

from math import cos, pi, sin

from builder.compute.setup.settings import MotorPlace
from builder.pages.drawing import Circle, Drawing, Item, Line, Words

_PLACES = {
    "front left": (22.0, 26.0),
    "front right": (62.0, 26.0),
    "rear right": (62.0, 62.0),
    "rear left": (22.0, 62.0),
}


def _turning(x: float, y: float, clockwise: bool) -> list[Item]:
    """An arc three quarters round with an arrow head at its end; y points down, so clockwise angles
    grow.
    """
    radius, way, steps = 11.0, 1 if clockwise else -1, 36
    start = pi if clockwise else 0.0
    turns = [start + way * 1.5 * pi * k / steps for k in range(steps + 1)]
    arc = Line(
        tuple((x + radius * cos(t), y + radius * sin(t)) for t in turns), tone="accent", width=0.5
    )
    points = ((x + way * 2.5, y + radius - 2.0), (x, y + radius), (x + way * 2.5, y + radius + 2.0))
    return [arc, Line(points, tone="accent", width=0.5)]


def rotation_view(build: str, motors: tuple[MotorPlace, ...], props: str) -> Drawing | None:
    """Motor numbers and rotation seen from above, for four corners; None for another layout."""
    if {m.corner for m in motors} != set(_PLACES) or not all(m.turns for m in motors):
        return None
    items: list[Item] = [
        Line(((22, 26), (62, 62)), tone="soft", width=0.8),
        Line(((62, 26), (22, 62)), tone="soft", width=0.8),
        Words(42, 6, "front", 3.0, "middle"),
        Line(((40, 12), (42, 8), (44, 12)), width=0.4),
    ]
    for m in motors:
        x, y = _PLACES[m.corner]
        items += [Circle(x, y, 4.0, tone="pad"), *_turning(x, y, m.turns == "clockwise")]
        items.append(Words(x, y + 1.2, m.number, 3.4, "middle"))
        items.append(Words(x, y - 12.5, m.turns, 3.2, "middle"))
    if props:
        items.append(Words(42, 82, f"front blades move {props}ward at the nose", 3.2, "middle"))
    said = ", ".join(f"motor {m.number} {m.corner} {m.turns}" for m in motors)
    return Drawing(f"{build}-rotation", 84.0, 85.0, tuple(items), f"Seen from above: {said}.")
