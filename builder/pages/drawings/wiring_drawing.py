"""The wiring drawing: boards with contacts in physical order, each wire in a lane of its own, named at both ends."""

from itertools import pairwise

from builder.compute.contacts import Join
from builder.compute.nets import Netlist
from builder.compute.pinout import letters
from builder.model.build import Build, Contact
from builder.pages.blocks import Block, Illustration
from builder.pages.drawing import Circle, Drawing, Item, Line, Rectangle, Words
from builder.pages.drawings.layout import BOX, MIDDLE, Box, Layout, layout

LANE = 2.6  # mm between lanes
_SIZE = 2.7  # mm, type of contacts
Ends = dict[Contact, tuple[float, float, str]]


def _ends(found: Layout) -> Ends:
    """Where a wire leaves each contact: x, y and the channel (left or right of the middle) it opens into."""
    ends: Ends = {}
    for box in found.left:
        ends.update({c: (box.x + box.width, y, "left") for c, y in box.right})
    for box in found.right:
        ends.update({c: (box.x, y, "right") for c, y in box.left})
    for box in found.middle:
        ends.update({c: (box.x, y, "left") for c, y in box.left})
        ends.update({c: (box.x + box.width, y, "right") for c, y in box.right})
    return ends


def _joins(nets: Netlist) -> list[Join]:
    return [j for j in nets.joins if j.by != "inside"]


def _channel(join: Join, ends: Ends) -> str:
    a, b = ends[join.a][2], ends[join.b][2]
    return a if a == b else "both"


def _order(joins: list[Join], ends: Ends) -> list[Join]:
    """Wires of a channel in the order of their lanes: short spans lie nearest to the middle, nested inside long ones."""
    return sorted(joins, key=lambda j: (abs(ends[j.a][1] - ends[j.b][1]), ends[j.a][1], str(j.a), str(j.b)))


def _routes(nets: Netlist, found: Layout, counts: dict[str, int]) -> list[tuple[Join, list[tuple[float, float]]]]:
    ends = _ends(found)
    x_left = BOX + LANE * (counts["left"] + 1)
    x_right = x_left + LANE + MIDDLE + LANE
    floor = max((b.y + b.height for b in found.boxes), default=0.0) + 4.0
    lanes: dict[str, list[Join]] = {"left": [], "right": [], "both": []}
    for join in _joins(nets):
        lanes[_channel(join, ends)].append(join)
    routes = []
    for side, sign, start in (("left", -1.0, x_left), ("right", 1.0, x_right)):
        for i, join in enumerate(_order(lanes[side], ends)):
            x = start + sign * LANE * i
            (xa, ya, _), (xb, yb, _) = ends[join.a], ends[join.b]
            routes.append((join, [(xa, ya), (x, ya), (x, yb), (xb, yb)]))
    for i, join in enumerate(lanes["both"]):
        (xa, ya, side_a), (xb, yb, _) = ends[join.a], ends[join.b]
        left = x_left - LANE * (len(lanes["left"]) + i)
        right = x_right + LANE * (len(lanes["right"]) + i)
        first, last = (left, right) if side_a == "left" else (right, left)
        y = floor + LANE * i
        routes.append((join, [(xa, ya), (first, ya), (first, y), (last, y), (last, yb), (xb, yb)]))
    return routes


def crossings(routes: list[tuple[Join, list[tuple[float, float]]]]) -> int:
    """How often two wires cross: a level piece of one and an upright piece of another."""
    level: list[tuple[int, float, float, float, float]] = []
    upright: list[tuple[int, float, float, float, float]] = []
    for i, (_, points) in enumerate(routes):
        for (x0, y0), (x1, y1) in pairwise(points):
            (level if y0 == y1 else upright).append((i, min(x0, x1), max(x0, x1), min(y0, y1), max(y0, y1)))
    return sum(i != j and x0 < x < x1 and y0 < y < y1 for i, x0, x1, y, _ in level for j, x, _, y0, y1 in upright)


def _board(box: Box) -> list[Item]:
    items: list[Item] = [
        Rectangle(box.x, box.y, box.width, box.height, "fill", 1.2),
        Words(box.x + box.width / 2, box.y + 4.2, box.title, 3.2, "middle", "strong"),
    ]
    for c, y in box.left:
        items += [Circle(box.x, y, 0.8, "pad"), Words(box.x + 1.8, y + 0.95, c.pad, _SIZE, "start", "mono")]
    for c, y in box.right:
        items += [
            Circle(box.x + box.width, y, 0.8, "pad"),
            Words(box.x + box.width - 1.8, y + 0.95, c.pad, _SIZE, "end", "mono"),
        ]
    return items


def _counts(build: Build, nets: Netlist) -> dict[str, int]:
    ends = _ends(layout(build, nets, 1, 1, LANE))
    counts = {"left": 0, "right": 0}
    for join in _joins(nets):
        channel = _channel(join, ends)
        for side in counts:
            counts[side] += channel in (side, "both")
    return {k: max(1, v) for k, v in counts.items()}


def wiring_drawing(build: Build, nets: Netlist) -> Drawing:
    """All wires and plugs of a build. Colour letters stand on each wire, so that it reads in black and white."""
    counts = _counts(build, nets)
    found = layout(build, nets, counts["left"], counts["right"], LANE)
    routes = _routes(nets, found, counts)
    width = max((b.x + b.width for b in found.boxes), default=10.0)
    bottom = max([b.y + b.height for b in found.boxes] + [y for _, points in routes for _, y in points] + [10.0]) + 4
    items: list[Item] = []
    for join, points in routes:
        colour = join.wire.colour if join.wire is not None and join.wire.colour else ""
        name = f"{join.a} to {join.b}" + (f", {colour}" if colour else "")
        items.append(Line(tuple(points), "halo", "", 1.5))
        items.append(Line(tuple(points), "wire-edge", "", 0.95))
        items.append(
            Line(tuple(points), "" if colour else "soft", colour, 0.65, "" if join.by == "wire" else "1.2 0.8", name)
        )
    for join, points in routes:
        text = letters(join.wire.colour or "") if join.wire is not None else ""
        if text:
            (xa, ya), (x1, _) = points[0], points[1]
            shift = 1.6 if x1 > xa else -1.6
            items.append(Words(xa + shift, ya - 0.5, text, 1.9, "start" if shift > 0 else "end", "soft"))
    for box in found.boxes:
        items += _board(box)
    met = crossings(routes)
    alt = f"Wiring of {build.title}: {len(found.boxes)} boards, {len(routes)} wires and contacts, {met} crossings"
    return Drawing(f"wiring-{build.name}", width, bottom, tuple(items), alt, (f"{met} crossings",))


def drawings_of(build: Build, nets: Netlist) -> list[Block]:
    """The wiring drawing as a block; none where nothing is wired."""
    if not _joins(nets):
        return []
    drawing = wiring_drawing(build, nets)
    caption = f"All wires; letters name the colour (IEC 60757), broken lines are plugs. {drawing.notes[0]}."
    return [Illustration(drawing, caption, "wiring-drawing", wide=True)]
