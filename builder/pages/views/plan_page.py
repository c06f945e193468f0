"""The page of a view from above or from below: nose up in both; from below left is right."""

from itertools import pairwise
from math import fsum

from builder.compute.geometry.clearances import discs
from builder.frozen import value_class
from builder.model.build import Build
from builder.model.kinds import Frame, Motor, Propeller
from builder.pages.drawing import Circle, Item, Line, Words
from builder.pages.tables.part_numbers import part_numbers
from builder.pages.views.balloons import TYPE, Balloon, balloons
from builder.pages.views.bodies import Body, rotor_places
from builder.pages.views.scale import WIDTH, Extent, PagePlace, scale_of

HEAD = 9.0  # mm above the aircraft: the word nose and its arrow
MOTOR_RING = 2.6  # mm, of the ring round a motor's number


@value_class(frozen=True, slots=True)
class PlanPage:
    """From m forward and left to mm of the page. Seen from `below`, what lies left is drawn right."""

    scale: float
    x0: float
    y0: float
    below: bool = False

    def at(self, forward: float, left: float) -> PagePlace:
        """A place on the page: forward is up, left is left unless it is seen from below."""
        way = -1.0 if self.below else 1.0
        return self.x0 - way * self.scale * left, self.y0 - self.scale * forward

    def nearer(self, one: Body, other: Body) -> bool:
        """Whether one body lies nearer to the eye than another, so that it may cover it."""
        return one.low < other.low if self.below else one.high > other.high


def plan_page(extent: Extent, side: float, height: float, *, below: bool = False) -> PlanPage:
    """The page on which an aircraft of that extent stands in the middle."""
    scale = scale_of(extent, side)
    middle = fsum(extent.across) / 2
    own = scale * (extent.along[1] - extent.along[0])
    y0 = HEAD + (height - own) / 2 + scale * extent.along[1]
    way = -1.0 if below else 1.0
    return PlanPage(scale, WIDTH / 2 + way * scale * middle, y0, below)


def motor_sign(x: float, y: float, number: str) -> tuple[Item, ...]:
    """A motor: a ring with its number."""
    ring = Circle(x, y, MOTOR_RING, "paper ring")
    return ring, Words(x, y + 0.35 * 4.0, number, 4.0, "middle", "strong")


def nose_sign(words: str) -> tuple[Item, ...]:
    """The words over the view, and the arrow to the nose below them."""
    x = WIDTH / 2
    return Words(x, 3.4, words, TYPE, "middle"), Line(((x - 1.6, 7.4), (x, 4.8), (x + 1.6, 7.4)))


def _covered(body: Body, over: Body, page: PlanPage) -> bool:
    """Whether nothing of a body is seen behind another."""
    inside = body.span[0] >= over.span[0] - 5e-4 and body.span[1] <= over.span[1] + 5e-4
    wide = body.across[0] >= over.across[0] - 5e-4 and body.across[1] <= over.across[1] + 5e-4
    return bool(over.floor) and not over.loose and page.nearer(over, body) and inside and wide


def hidden_keys(found: tuple[Body, ...], page: PlanPage) -> frozenset[str]:
    """Parts that lie wholly behind another for the eye of the view."""
    return frozenset(b.key for b in found if any(_covered(b, o, page) for o in found if o is not b))


def _tip(body: Body, found: tuple[Body, ...], page: PlanPage) -> PagePlace:
    """A point of a part that nothing lies over: towards its corners first, else its middle."""
    x, y, _ = body.at
    over = [o for o in found if page.nearer(o, body) and not o.loose and o.floor]
    inner = [(x + 0.8 * (cx - x), y + 0.8 * (cy - y)) for cx, cy in body.floor]
    edges = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in pairwise(inner)]
    for at in (*edges, *inner):
        if not any(_holds(o, at) for o in over):
            return page.at(*at)
    return page.at(x, y)


def _holds(body: Body, at: tuple[float, float]) -> bool:
    (rear, front), (right, left) = body.span, body.across
    return rear <= at[0] <= front and right <= at[1] <= left


def _airframe_tips(build: Build, page: PlanPage) -> list[tuple[str, PagePlace]]:
    """Where the balloons of frame, motors and propellers point: an arm, a motor, a disc's edge."""
    places = rotor_places(build)
    if not places:
        return []
    key = max(places, key=lambda k: (places[k][1], places[k][0]))
    other = min(places, key=lambda k: (places[k][1], -places[k][0]))
    x, y, _ = places[key]
    tips = [(f.key, page.at(0.6 * x, 0.6 * y)) for f in build.of_kind(Frame)]
    beside = page.at(places[other][0], places[other][1])
    tips += [(f.key, (beside[0] + MOTOR_RING, beside[1])) for f in build.of_kind(Motor)]
    radius = next((d.radius for d in discs(build) if d.motor == key), 0.0)
    tips += [(f.key, page.at(x + radius, y)) for f in build.of_kind(Propeller)]
    return tips


def plan_balloons(
    build: Build, found: tuple[Body, ...], page: PlanPage, height: float
) -> tuple[Balloon, ...]:
    """Balloons of all that a view shows, in two columns."""
    numbers = part_numbers(build)
    first = {b.key: b for b in reversed(found)}
    points = [(k, _tip(b, found, page)) for k, b in first.items()]
    points += _airframe_tips(build, page)
    tips = [(k, numbers[k], at) for k, at in points]
    return balloons(tips, WIDTH, HEAD - 4.0, HEAD + height + 2.0)
