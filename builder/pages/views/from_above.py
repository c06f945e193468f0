"""The aircraft to scale, seen from above with the nose up: what lies left is left."""

from math import degrees, fsum

from builder.compute.figures.figure import Figure
from builder.compute.geometry.clearances import discs
from builder.model.build import Build
from builder.pages.drawing import Drawing, Item, Line
from builder.pages.drawings.board_box import arrow
from builder.pages.sheet_input import SheetInput
from builder.pages.views.balloons import balloon_items, needed
from builder.pages.views.bodies import Body, bodies, rotor_places
from builder.pages.views.bundle_runs import bundle_runs, run_line
from builder.pages.views.plan_page import (
    HEAD,
    PlanPage,
    hidden_keys,
    motor_sign,
    nose_sign,
    plan_balloons,
    plan_page,
)
from builder.pages.views.scale import (
    PLAIN_SIDE,
    SIDE,
    WIDTH,
    band_of,
    centre_mark,
    disc_items,
    extent_of,
    outline,
    point_sign,
    scale_bar,
    turn_arrow,
)

_FOOT = 14.0  # mm below it: what is pointed to, and the bar of scale


def frame_items(build: Build, page: PlanPage) -> list[Item]:
    """Arms as lines from the middle to the motors: how wide they are is not stated."""
    middle = page.at(0.0, 0.0)
    places = rotor_places(build).values()
    return [Line((middle, page.at(*p[:2])), "arm", width=1.2) for p in places]


def _turning(sheet: SheetInput, page: PlanPage) -> list[Item]:
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
        rings += motor_sign(x, y, number)
    return [*edges, *arrows, *rings]


def body_items(found: tuple[Body, ...], page: PlanPage) -> list[Item]:
    """Outlines of what has a place, the nearest to the eye last."""
    hidden = hidden_keys(found, page)
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
            items += arrow(x, y, -degrees(body.yaw) if page.below else degrees(body.yaw))
    return items + late


def _ahead(body: Body) -> tuple[float, float]:
    """A point of a body towards its own front: half way from its middle to its front edge."""
    (ax, ay), (bx, by) = body.floor[:2]
    x, y, _ = body.at
    return x + 0.5 * ((ax + bx) / 2 - x), y + 0.5 * ((ay + by) / 2 - y)


def run_items(sheet: SheetInput, page: PlanPage) -> list[Item]:
    """Bundles of wires, straight from part to part."""
    found = bundle_runs(sheet.build, sheet.results.netlist)
    ends = [[page.at(*end[:2]) for end in run.ends] for run in found]
    return [run_line(start, end) for start, end in ends]


def centre_items(sheet: SheetInput, page: PlanPage) -> list[Item]:
    """The centre of mass with each battery, each with a cross of its spread."""
    balance = sheet.results.balance
    places = list(rotor_places(sheet.build).values())
    if balance is None or not places:
        return []
    middle = [fsum(p[i] for p in places) / len(places) for i in (0, 1)]
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


def _alt(sheet: SheetInput, found: tuple[Body, ...], numbered: bool, words: bool) -> str:
    said = f"{sheet.build.title} to scale, seen from above, nose up."
    if numbered and not words:
        return f"{said} Numbers are those of the table."
    turns = ", ".join(
        f"motor {m.number} {m.corner} {m.turns}".strip() for m in sheet.results.settings.motors
    )
    said = f"{said} {turns[:1].upper()}{turns[1:]}."
    names = ", ".join(dict.fromkeys(b.key for b in found))
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
    scale = plan_page(extent, side, 0.0).scale
    keys = len({b.key for b in found}) + 3
    own = scale * (extent.along[1] - extent.along[0])
    height = max(own, needed(keys) - 6.0) if numbered else own
    page = plan_page(extent, side, height)
    items: list[Item] = [*nose_sign("nose")]
    items += [*frame_items(build, page), *body_items(found, page)]
    items += run_items(sheet, page) if words else []
    items += [*_turning(sheet, page), *centre_items(sheet, page)]
    low = HEAD + height
    if numbered:
        drawn = plan_balloons(build, found, page, height)
        items += balloon_items(drawn, link, words or {}, (1.0, low + 6.5))
    items += scale_bar(scale, low + (11.0 if numbered else 5.0), 1.5)
    bottom = low + (_FOOT if numbered else 8.0)
    name = f"{build.name}-above" + ("" if words else "-plain")
    return Drawing(name, WIDTH, bottom, tuple(items), _alt(sheet, found, numbered, bool(words)))
