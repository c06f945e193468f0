"""The aircraft to scale, seen from below with the nose up: mirrored, what lies left is drawn right."""

from builder.compute.geometry.clearances import discs
from builder.pages.drawing import Drawing, Item, Words
from builder.pages.sheet_input import SheetInput
from builder.pages.views.balloons import balloon_items, needed
from builder.pages.views.bodies import Body, bodies, rotor_places
from builder.pages.views.from_above import body_items, centre_items, frame_items, run_items
from builder.pages.views.plan_page import (
    HEAD,
    PlanPage,
    motor_sign,
    nose_sign,
    plan_balloons,
    plan_page,
)
from builder.pages.views.scale import SIDE, WIDTH, disc_items, extent_of, scale_bar

_FOOT = 14.0  # mm below it: what is pointed to, and the bar of scale
_LETTER = 5.0  # mm, type of L and R


def _upward(body: Body) -> tuple[float, str]:
    """Highest first, so that what lies nearer to the ground is drawn over it."""
    return -body.low, body.key


def _motors(sheet: SheetInput, page: PlanPage) -> list[Item]:
    """Discs and the numbers of the motors. Which way each turns is said from above alone: seen from
    below it would be the other way round.
    """
    places = rotor_places(sheet.build)
    items: list[Item] = []
    for disc in discs(sheet.build):
        place = places.get(disc.motor)
        if place is not None:
            items.append(disc_items(*page.at(place[0], place[1]), disc, page.scale))
    for number, place in places.items():
        items += motor_sign(*page.at(place[0], place[1]), number)
    return items


def _head() -> list[Item]:
    """The title's words and the letters of both sides."""
    return [
        *nose_sign("from below, mirrored: nose"),
        Words(9.0, 5.6, "R", _LETTER, "start", "strong"),
        Words(WIDTH - 9.0, 5.6, "L", _LETTER, "end", "strong"),
    ]


def view_from_below(
    sheet: SheetInput, *, words: dict[str, str] | None = None, link: str = ""
) -> Drawing | None:
    """The view from below with each part's balloon, which leads to its row at `link`; None where no
    motor has a place. `words` are what a part says while it is pointed to.
    """
    build = sheet.build
    if not rotor_places(build):
        return None
    found, extent = bodies(build), extent_of(build)
    keys = len({b.key for b in found}) + 3
    own = plan_page(extent, SIDE, 0.0).scale * (extent.along[1] - extent.along[0])
    height = max(own, needed(keys) - 6.0)
    page = plan_page(extent, SIDE, height, below=True)
    drawn = plan_balloons(build, found, page, height)
    low = HEAD + height
    items = [*_head(), *frame_items(build, page)]
    items += body_items(tuple(sorted(found, key=_upward)), page)
    items += [*run_items(sheet, page), *_motors(sheet, page), *centre_items(sheet, page)]
    items += balloon_items(drawn, link, words or {}, (1.0, low + 6.5))
    items += scale_bar(page.scale, low + 11.0, 1.5)
    names = ", ".join(dict.fromkeys(b.key for b in found))
    alt = (
        f"{build.title} to scale, seen from below, nose up, mirrored: its left side is drawn right."
        f" Drawn with a place: {names}."
    )
    return Drawing(f"{build.name}-below", WIDTH, low + _FOOT, tuple(items), alt)
