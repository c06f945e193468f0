"""Curves and the top view as drawings with text: thrust and current over throttle, and which way motors turn."""

from builder.compute.figure import Figure
from builder.compute.flight import Flight
from builder.compute.settings import MotorPlace
from builder.pages.drawing import Circle, Drawing, Item, Line, Shape, Words
from builder.pages.numbers import rounded

_LEFT, _TOP, _WIDE, _HIGH = 14.0, 8.0, 80.0, 50.0
_PLACES = {
    "front left": (22.0, 26.0),
    "front right": (62.0, 26.0),
    "rear right": (62.0, 62.0),
    "rear left": (22.0, 62.0),
}


def _axis(x_words: str, top: float, unit: str, y_words: str) -> list[Item]:
    right, foot = _LEFT + _WIDE, _TOP + _HIGH
    out: list[Item] = [Line(((_LEFT, _TOP), (_LEFT, foot), (right, foot)))]
    for share in (0.0, 0.25, 0.5, 0.75, 1.0):
        x, y = _LEFT + share * _WIDE, foot - share * _HIGH
        out.append(Words(x, foot + 4, rounded(100 * share, 0), 2.6, "middle"))
        out.append(Words(_LEFT - 1, y + 1, rounded(top * share, 1), 2.6, "end"))
        out.append(Line(((_LEFT, y), (right, y)), tone="guide", width=0.1))
    out.append(Words((_LEFT + right) / 2, foot + 8, x_words, 2.8, "middle"))
    out.append(Words(_LEFT, _TOP - 3, f"{y_words}, {unit}", 2.8))
    return out


def bench_curve(build: str, flight: Flight, what: str) -> Drawing | None:
    """Thrust (`thrust`, N) or current (`current`, A) of one motor over throttle by its bench table, hover marked."""
    table = flight.drive.table
    if table is None:
        return None
    points = sorted(
        (r.throttle.value, r.thrust.value if what == "thrust" else r.current.value)
        for r in table.rows
        if r.throttle is not None
    )
    if len(points) < 2:
        return None
    unit, label = ("N", "Thrust of one motor") if what == "thrust" else ("A", "Current of one motor")
    top = max(y for _, y in points) * 1.1
    place = [(_LEFT + x * _WIDE, _TOP + _HIGH - y / top * _HIGH) for x, y in points]
    items = _axis("Throttle, per cent of the bench's volts", top, unit, label)
    items.append(Line(tuple(place), tone="curve", width=0.5))
    items += [Circle(x, y, 0.7, tone="curve") for x, y in place]
    hover = next(iter(flight.packs.values()), None)
    words = ""
    if hover is not None and isinstance(hover.throttle, Figure):
        x = _LEFT + min(hover.throttle.value, 1.0) * _WIDE
        words = f"hover on pack {hover.pack}: {rounded(100 * hover.throttle.value, 0)} %"
        items.append(Line(((x, _TOP), (x, _TOP + _HIGH)), dash="1.5 1", tone="mark", width=0.4))
        items.append(Words(x + 1, _TOP + 3, words, 2.8))
    alt = f"{label} over throttle, up to {rounded(max(y for _, y in points), 1)} {unit}. {words}".strip()
    return Drawing(f"{build}-{what}", _LEFT + _WIDE + 6, _TOP + _HIGH + 10, tuple(items), alt)


def _turning(x: float, y: float, clockwise: bool) -> list[Item]:
    """An arc three quarters round with an arrow head at its end."""
    radius, way = 11.0, 1 if clockwise else -1
    sweep = 1 if clockwise else 0
    arc = Shape(f"M {x - way * radius:.2f} {y:.2f} A {radius} {radius} 0 1 {sweep} {x:.2f} {y + radius:.2f}")
    head = Line(((x + way * 2.5, y + radius - 2.0), (x, y + radius), (x + way * 2.5, y + radius + 2.0)), width=0.4)
    return [arc, head]


def rotation_view(build: str, motors: tuple[MotorPlace, ...], props: str) -> Drawing | None:
    """Motor numbers and rotation seen from above, for four corners; None for another layout."""
    if {m.corner for m in motors} != set(_PLACES) or not all(m.turns for m in motors):
        return None
    items: list[Item] = [
        Line(((22, 26), (62, 62)), width=0.8),
        Line(((62, 26), (22, 62)), width=0.8),
        Words(42, 6, "front", 3.0, "middle"),
        Line(((40, 12), (42, 8), (44, 12)), width=0.4),
    ]
    for m in motors:
        x, y = _PLACES[m.corner]
        items += [Circle(x, y, 4.0), *_turning(x, y, m.turns == "clockwise")]
        items.append(Words(x, y + 1.2, m.number, 3.4, "middle"))
        items.append(Words(x, y - 12.5, m.turns, 2.6, "middle"))
    if props:
        items.append(Words(42, 82, f"front blades move {props}ward at the nose", 2.8, "middle"))
    said = ", ".join(f"motor {m.number} {m.corner} {m.turns}" for m in motors)
    return Drawing(f"{build}-rotation", 84.0, 85.0, tuple(items), f"Seen from above: {said}.")
