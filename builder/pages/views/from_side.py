"""The aircraft to scale, seen from its left side: the nose points left, up is up."""

from math import fsum

from builder.compute.figures.figure import Figure
from builder.compute.geometry.clearances import discs
from builder.frozen import value_class
from builder.model.build import Build
from builder.model.kinds import Frame, Motor, Propeller
from builder.pages.drawing import Drawing, Item, Line, Rectangle, Words
from builder.pages.sheet_input import SheetInput
from builder.pages.tables.part_numbers import part_numbers
from builder.pages.views.balloons import (
    STEP,
    TYPE,
    Balloon,
    balloon_items,
    balloons_in_rows,
    lanes_of,
)
from builder.pages.views.bodies import Body, bodies, rotor_places
from builder.pages.views.bundle_runs import bundle_runs, run_line
from builder.pages.views.scale import (
    SIDE,
    WIDTH,
    Extent,
    PagePlace,
    band_of,
    extent_of,
    outline,
    point_sign,
    scale_bar,
    scale_of,
)

_ROOM = 11.0  # mm between the rows of balloons and the aircraft
_FOOT = 13.0


@value_class(frozen=True, slots=True)
class SidePage:
    """From m forward and up to mm of the page."""

    scale: float
    x0: float
    y0: float

    def at(self, forward: float, up: float) -> PagePlace:
        """A place on the page: forward is left, up is up."""
        return self.x0 - self.scale * forward, self.y0 - self.scale * up


def _page(extent: Extent, room: float) -> SidePage:
    scale = scale_of(extent, SIDE)
    middle = fsum(extent.along) / 2
    return SidePage(scale, WIDTH / 2 + scale * middle, room + scale * extent.tall[1])


def _room_for(found: tuple[Body, ...]) -> float:
    """The room above and below that the rows of balloons take: parts, frame, motor, propeller."""
    count = len({b.key for b in found}) + 3
    return _ROOM + 6.0 + STEP * (lanes_of(count, WIDTH - 2.0) - 1)


def side_square(body: Body) -> list[tuple[float, float]]:
    """A body's outline from the side, as places forward and up."""
    rear, front = body.span
    return [(front, body.high), (front, body.low), (rear, body.low), (rear, body.high)]


def _covers(over: Body, body: Body) -> bool:
    """Whether nothing of a body is seen behind another that lies nearer to the left side."""
    nearer = over.across[1] > body.across[1] + 1e-4
    long = over.span[0] <= body.span[0] and over.span[1] >= body.span[1]
    tall = over.low <= body.low and over.high >= body.high
    return bool(over.floor) and not over.loose and nearer and long and tall


def _body_items(found: tuple[Body, ...], page: SidePage) -> list[Item]:
    """Those further from the left side first, so that nearer ones cover them."""
    items: list[Item] = []
    late: list[Item] = []
    for body in sorted(found, key=lambda b: (b.across[1], b.key)):
        if not body.floor:
            items.append(point_sign(*page.at(body.at[0], body.at[2])))
            continue
        behind = any(_covers(o, body) for o in found)
        points = [page.at(*c) for c in side_square(body)]
        (late if behind or body.loose else items).append(outline(points, body, behind))
    return items + late


def _motor_items(build: Build, page: SidePage) -> list[Item]:
    """The arms' line, each motor as high as it is, and its disc from the edge."""
    places = rotor_places(build)
    motor = next(iter(build.of_kind(Motor)), None)
    height = getattr(motor.part, "height", None) if motor is not None else None
    tall = height.value if height is not None else 0.0
    forward = [p[0] for p in places.values()]
    level = min(p[2] for p in places.values())
    ends = page.at(max(forward), level), page.at(min(forward), level)
    items: list[Item] = [Line(ends, "arm", width=1.2)]
    swept = {d.motor: d for d in discs(build)}
    half = 0.35 * tall or 0.002  # how wide a motor is, is not stated: drawn 0.7 of its height
    for number, (x, _, z) in places.items():
        left, top = page.at(x + half, z + tall)
        items.append(Rectangle(left, top, 2 * half * page.scale, tall * page.scale, "fill"))
        disc = swept.get(number)
        if disc is not None:
            edge = (page.at(x + r, disc.middle[2]) for r in (disc.radius, -disc.radius))
            items.append(Line(tuple(edge), "soft", width=0.5))
    return items


def _centre_lines(sheet: SheetInput, page: SidePage, low: float) -> list[Item]:
    """Where the centre of mass lies fore and aft with each battery; its height is not worked out."""
    balance = sheet.results.balance
    places = list(rotor_places(sheet.build).values())
    if balance is None:
        return []
    middle = fsum(p[0] for p in places) / len(places)
    items: list[Item] = []
    for pack in balance.packs:
        if not isinstance(pack.along, Figure):
            continue
        x, _ = page.at(middle + pack.along.value, 0.0)
        ends = [page.at(middle + e, 0.0)[0] for e in band_of(pack.along)]
        items.append(Line(((x, low - 3.5), (x, low + 1.0)), "accent", width=0.4))
        items.append(Line(((ends[0], low), (ends[1], low)), "accent", width=0.4))
    return items


def _tip(body: Body, found: tuple[Body, ...], page: SidePage) -> PagePlace:
    """A point of a part that nothing nearer covers, else its middle."""
    x, z = (body.span[0] + body.span[1]) / 2, (body.low + body.high) / 2
    inner = [(x + 0.8 * (cx - x), z + 0.8 * (cz - z)) for cx, cz in side_square(body)]
    over = [o for o in found if o.floor and not o.loose and o.across[1] > body.across[1] + 1e-4]
    for fore, up in [(x, z), *inner]:
        if not any(o.span[0] <= fore <= o.span[1] and o.low <= up <= o.high for o in over):
            return page.at(fore, up)
    return page.at(x, z)


def _airframe_tips(build: Build, page: SidePage) -> list[tuple[str, PagePlace]]:
    places = rotor_places(build)
    front = max(places, key=lambda k: places[k][0])
    rear = min(places, key=lambda k: places[k][0])
    x, _, z = places[front]
    tips = [(f.key, page.at(0.6 * x, z)) for f in build.of_kind(Frame)]
    tips += [(f.key, page.at(places[rear][0], places[rear][2])) for f in build.of_kind(Motor)]
    disc = next((d for d in discs(build) if d.motor == front), None)
    if disc is not None:
        at = page.at(x + 0.6 * disc.radius, disc.middle[2])
        tips += [(f.key, at) for f in build.of_kind(Propeller)]
    return tips


def _balloons(
    build: Build, found: tuple[Body, ...], page: SidePage, height: float
) -> tuple[Balloon, ...]:
    numbers = part_numbers(build)
    first = {b.key: b for b in reversed(found)}
    points = [(k, _tip(b, found, page)) for k, b in first.items()]
    points += _airframe_tips(build, page)
    return balloons_in_rows([(k, numbers[k], at) for k, at in points], height, 1.0, WIDTH - 1.0)


def view_from_side(
    sheet: SheetInput, *, words: dict[str, str] | None = None, link: str = ""
) -> Drawing | None:
    """The view from the left side, with each part's balloon; None where no motor has a place."""
    build = sheet.build
    if not rotor_places(build):
        return None
    found, extent = bodies(build), extent_of(build)
    room = _room_for(found)
    page = _page(extent, room)
    low = page.at(0.0, extent.tall[0])[1]
    height = low + room
    foot = height + 9.0
    items: list[Item] = [Words(WIDTH - 1.5, foot + 0.35 * TYPE, "nose to the left", TYPE, "end")]
    items.append(Line(((75.4, foot - 1.5), (73.0, foot), (75.4, foot + 1.5))))
    items += [*_motor_items(build, page), *_body_items(found, page)]
    runs = bundle_runs(build, sheet.results.netlist)
    ends = [[page.at(end[0], end[2]) for end in run.ends] for run in runs]
    items += [run_line(start, end) for start, end in ends]
    items += _centre_lines(sheet, page, low + 4.0)
    drawn = _balloons(build, found, page, height)
    items += balloon_items(drawn, link, words or {}, (1.0, height + 4.5))
    items += scale_bar(page.scale, foot, 1.5)
    names = ", ".join(dict.fromkeys(b.key for b in found))
    alt = (
        f"{build.title} to scale, seen from its left side, nose to the left, at the scale of the"
        f" view from above. Drawn with a place: {names}."
    )
    return Drawing(f"{build.name}-side", WIDTH, height + _FOOT - 1.0, tuple(items), alt)
