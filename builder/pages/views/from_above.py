"""The aircraft to scale, seen from above with the nose up: what lies left is left."""

from itertools import pairwise
from math import degrees

from builder.compute.figures.figure import Figure
from builder.compute.geometry.clearances import discs
from builder.frozen import value_class
from builder.model.build import Build
from builder.model.kinds import Frame, Motor, Propeller
from builder.pages.drawing import Circle, Drawing, Item, Line, Words
from builder.pages.drawings.board_box import arrow
from builder.pages.sheet_input import SheetInput
from builder.pages.tables.part_numbers import part_numbers
from builder.pages.views.balloons import TYPE, Balloon, balloon_items, balloons, needed
from builder.pages.views.bodies import Body, bodies, rotor_places
from builder.pages.views.scale import (
    PLAIN_SIDE,
    SIDE,
    WIDTH,
    Extent,
    PagePlace,
    band_of,
    centre_mark,
    disc_items,
    extent_of,
    outline,
    point_sign,
    scale_bar,
    scale_of,
    turn_arrow,
)

_HEAD = 9.0  # mm above the aircraft: the word nose and its arrow
_RING = 2.6  # mm, of the ring round a motor's number
_FOOT = 14.0  # mm below it: what is pointed to, and the bar of scale


@value_class(frozen=True, slots=True)
class AbovePage:
    """From m forward and left to mm of the page."""

    scale: float
    x0: float
    y0: float

    def at(self, forward: float, left: float) -> PagePlace:
        """A place on the page: forward is up, left is left."""
        return self.x0 - self.scale * left, self.y0 - self.scale * forward


def _page(extent: Extent, side: float, height: float) -> AbovePage:
    scale = scale_of(extent, side)
    middle = sum(extent.across) / 2
    own = scale * (extent.along[1] - extent.along[0])
    y0 = _HEAD + (height - own) / 2 + scale * extent.along[1]
    return AbovePage(scale, WIDTH / 2 + scale * middle, y0)


def _covered(body: Body, over: Body) -> bool:
    """Whether nothing of a body is seen below another."""
    inside = body.span[0] >= over.span[0] - 5e-4 and body.span[1] <= over.span[1] + 5e-4
    wide = body.across[0] >= over.across[0] - 5e-4 and body.across[1] <= over.across[1] + 5e-4
    return bool(over.floor) and not over.loose and over.high > body.high and inside and wide


def hidden_keys(found: tuple[Body, ...]) -> frozenset[str]:
    """Parts that lie wholly below another, seen from above."""
    return frozenset(b.key for b in found if any(_covered(b, o) for o in found if o is not b))


def _frame_items(build: Build, page: AbovePage) -> list[Item]:
    """Arms as lines from the middle to the motors: how wide they are is not stated."""
    middle = page.at(0.0, 0.0)
    places = rotor_places(build).values()
    return [Line((middle, page.at(*p[:2])), "arm", width=1.2) for p in places]


def _turning(sheet: SheetInput, page: AbovePage) -> list[Item]:
    """Discs, the motors in their middles with their number, and which way each turns."""
    turns = {m.number: m.turns for m in sheet.results.settings.motors}
    radius = {d.motor: d for d in discs(sheet.build)}
    edges: list[Item] = []
    arrows: list[Item] = []
    rings: list[Item] = []
    for number, place in rotor_places(sheet.build).items():
        x, y = page.at(place[0], place[1])
        disc = radius.get(number)
        if disc is not None:
            edges.append(disc_items(x, y, disc, page.scale))
        if disc is not None and turns.get(number):
            clockwise = turns[number] == "clockwise"
            arrows += turn_arrow(x, y, 0.8 * page.scale * disc.radius, clockwise)
        rings.append(Circle(x, y, _RING, "paper ring"))
        rings.append(Words(x, y + 0.35 * 4.0, number, 4.0, "middle", "strong"))
    return [*edges, *arrows, *rings]


def _body_items(found: tuple[Body, ...], page: AbovePage) -> list[Item]:
    hidden = hidden_keys(found)
    items: list[Item] = []
    late: list[Item] = []
    for body in found:
        points = [page.at(*c) for c in body.floor]
        if not points:
            items.append(point_sign(*page.at(*body.at[:2])))
            continue
        under = body.key in hidden
        (late if under or body.loose else items).append(outline(points, body, under))
        if body.yaw is not None and not under and not body.loose:
            x, y = page.at(*_ahead(body))
            items += arrow(x, y, degrees(body.yaw))
    return items + late


def _ahead(body: Body) -> tuple[float, float]:
    """A point of a body towards its own front: half way from its middle to its front edge."""
    (ax, ay), (bx, by) = body.floor[:2]
    x, y, _ = body.at
    return x + 0.5 * ((ax + bx) / 2 - x), y + 0.5 * ((ay + by) / 2 - y)


def _centres(sheet: SheetInput, page: AbovePage) -> list[Item]:
    """The centre of mass with each battery, each with a cross of its spread."""
    balance = sheet.results.balance
    places = list(rotor_places(sheet.build).values())
    if balance is None or not places:
        return []
    middle = [sum(p[i] for p in places) / len(places) for i in (0, 1)]
    items: list[Item] = []
    for pack in balance.packs:
        along, across = pack.along, pack.across
        if not isinstance(along, Figure) or not isinstance(across, Figure):
            continue
        x, y = page.at(middle[0] + along.value, middle[1] + across.value)
        fore = [page.at(middle[0] + e, 0.0)[1] for e in band_of(along)]
        wide = [page.at(0.0, middle[1] + e)[0] for e in band_of(across)]
        items += [Line(((x, e), (x, y)), "accent", width=0.4) for e in fore]
        items += [Line(((e, y), (x, y)), "accent", width=0.4) for e in wide]
        items += centre_mark(x, y)
    return items


def _tip(body: Body, found: tuple[Body, ...], page: AbovePage) -> PagePlace:
    """A point of a part that nothing lies over: towards its corners first, else its middle."""
    x, y, _ = body.at
    over = [o for o in found if o.high > body.high and not o.loose and o.floor]
    inner = [(x + 0.8 * (cx - x), y + 0.8 * (cy - y)) for cx, cy in body.floor]
    edges = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in pairwise(inner)]
    for at in (*edges, *inner):
        if not any(_holds(o, at) for o in over):
            return page.at(*at)
    return page.at(x, y)


def _holds(body: Body, at: tuple[float, float]) -> bool:
    (rear, front), (right, left) = body.span, body.across
    return rear <= at[0] <= front and right <= at[1] <= left


def _airframe_tips(build: Build, page: AbovePage) -> list[tuple[str, PagePlace]]:
    """Where the balloons of frame, motors and propellers point: an arm, a motor, a disc's edge."""
    places = rotor_places(build)
    if not places:
        return []
    key = max(places, key=lambda k: (places[k][1], places[k][0]))
    other = min(places, key=lambda k: (places[k][1], -places[k][0]))
    x, y, _ = places[key]
    tips = [(f.key, page.at(0.6 * x, 0.6 * y)) for f in build.of_kind(Frame)]
    beside = page.at(places[other][0], places[other][1])
    tips += [(f.key, (beside[0] + _RING, beside[1])) for f in build.of_kind(Motor)]
    radius = next((d.radius for d in discs(build) if d.motor == key), 0.0)
    tips += [(f.key, page.at(x + radius, y)) for f in build.of_kind(Propeller)]
    return tips


def _balloons(
    build: Build, found: tuple[Body, ...], page: AbovePage, height: float
) -> tuple[Balloon, ...]:
    numbers = part_numbers(build)
    first = {b.key: b for b in reversed(found)}
    points = [(k, _tip(b, found, page)) for k, b in first.items()]
    points += _airframe_tips(build, page)
    tips = [(k, numbers[k], at) for k, at in points]
    return balloons(tips, WIDTH, _HEAD - 4.0, _HEAD + height + 2.0)


def _alt(sheet: SheetInput, found: tuple[Body, ...], numbered: bool) -> str:
    turns = ", ".join(
        f"motor {m.number} {m.corner} {m.turns}".strip() for m in sheet.results.settings.motors
    )
    names = ", ".join(dict.fromkeys(b.key for b in found))
    size = f"{sheet.build.title} to scale, seen from above, nose up."
    said = f"{size} {turns[:1].upper()}{turns[1:]}."
    return said if numbered else f"{said} Drawn with a place: {names}."


def view_from_above(
    sheet: SheetInput, *, numbered: bool, words: dict[str, str] | None = None, link: str = ""
) -> Drawing | None:
    """The view from above; None where no motor has a place. `numbered` gives each part its balloon,
    which leads to its row at `link`; `words` are what a part says while it is pointed to.
    """
    build = sheet.build
    if not rotor_places(build):
        return None
    found, extent = bodies(build), extent_of(build)
    side = SIDE if numbered else PLAIN_SIDE
    scale = scale_of(extent, side)
    keys = len({b.key for b in found}) + 3
    own = scale * (extent.along[1] - extent.along[0])
    height = max(own, needed(keys) - 6.0) if numbered else own
    page = _page(extent, side, height)
    x = WIDTH / 2
    nose = ((x - 1.6, 7.4), (x, 4.8), (x + 1.6, 7.4))
    items: list[Item] = [Words(x, 3.4, "nose", TYPE, "middle"), Line(nose)]
    items += [*_frame_items(build, page), *_body_items(found, page)]
    items += [*_turning(sheet, page), *_centres(sheet, page)]
    low = _HEAD + height
    if numbered:
        drawn = _balloons(build, found, page, height)
        items += balloon_items(drawn, link, words or {}, (1.0, low + 6.5))
    items += scale_bar(scale, low + (11.0 if numbered else 5.0), 1.5)
    bottom = low + (_FOOT if numbered else 8.0)
    name = f"{build.name}-above" + ("" if words else "-plain")
    return Drawing(name, WIDTH, bottom, tuple(items), _alt(sheet, found, numbered))
