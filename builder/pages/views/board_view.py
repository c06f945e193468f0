"""A board as it lies before the hand: which side is seen, its contacts in physical order around it,
and where each of them is drawn.

A board of the middle is drawn as it is mounted, nose up. What looks down is seen from below, so that
left and right change places, and both are lettered. Any other part is soldered loose: it is drawn by
itself with its contacts towards the reader.
"""

from builder.compute.geometry.orientation import BoardLie, lies
from builder.compute.joints.bench_pieces import is_centre
from builder.frozen import value_class
from builder.model.build import Build, Fitted
from builder.model.source.part import Part
from builder.pages.drawing import Item, KeptShapes, Line, Rectangle, Words
from builder.pages.drawings.board_box import arrow
from builder.pages.drawings.ring import EDGES, Ring, RingPlace, ring
from builder.pages.drawings.text_size import mono_width, words_width

PITCH = 4.0  # mm between contacts: they are in order, not to scale
TYPE = 3.1  # mm
_CORNER = 10.0  # mm from a corner to the first contact, so that what is lit at both meets nowhere
_LEAST = (52.0, 52.0)
_HEAD = 5.5  # mm for the title
_FOR_LETTERS = 6.5  # mm above a board that is seen from below, for L and R
OWN_ARROW = "the arrow is the board's own"  # said where it does not point to the nose
_OUT = 1.6  # mm from the rim to a name
_WIDTH = 84.0  # mm, so that type is as large in all of them, and can be read on a phone
_INWARD = {"front": (0.0, 1.0), "right": (-1.0, 0.0), "rear": (0.0, -1.0), "left": (1.0, 0.0)}


@value_class(frozen=True, slots=True)
class PadPlace:
    """Where a contact is drawn, and the way from it into the board."""

    x: float
    y: float
    inward: tuple[float, float]


def words_inward(at: PadPlace, reach: float, words: str) -> Words:
    """Words on a board, so many mm inward of a contact; upright behind a front or rear edge."""
    dx, dy = at.inward
    if dx:
        place = at.x + dx * reach, at.y + 0.35 * TYPE
        return Words(*place, words, TYPE, "start" if dx > 0 else "end", "strong")
    place = at.x + 0.35 * TYPE, at.y + dy * reach
    return Words(*place, words, TYPE, "end" if dy > 0 else "start", "strong", -90)


@value_class(frozen=True, eq=False)
class BoardView:
    """One side of a board. `shape` holds all that does not change from step to step."""

    name: str
    said: str
    shape: KeptShapes
    pads: dict[str, PadPlace]
    width: float
    bottom: float
    size: tuple[float, float]


@value_class(frozen=True, slots=True)
class Seen:
    """A side of a board: its edges from left to right and from top to bottom of the picture, what
    the view is called, how far the arrow is turned, whether L and R are lettered.
    """

    edges: Ring
    said: str
    turn: float
    lettered: bool


def _mirrored(around: Ring) -> Ring:
    """The same seen from the other side: turned over about the line that points up."""
    return Ring(around.front[::-1], around.left, around.rear[::-1], around.right, around.loose)


def _mounted_words(lie: BoardLie, below: bool) -> str:
    view = "from below, nose up, mirrored" if below else "from above, nose up"
    if lie.yaw is None:
        return f"{view}; direction not known, drawn arrow up"
    return f"{view}; turned {lie.yaw:.0f}°, drawn at {90 * lie.quarters}°" if lie.askew else view


def seen(build: Build, fitted: Fitted, side: str) -> Seen:
    """The side of a part on which a joint is made, as it lies before the hand."""
    around, lie = ring(fitted.part), lies(fitted)
    if not is_centre(build, fitted.key):
        if side == "under":
            return Seen(_mirrored(around), "underside, arrow up, turned over", 0.0, False)
        return Seen(around, "by itself, arrow up", 0.0, False)
    placed = around.mounted(lie.quarters, lie.down)
    below = (side == "under") != lie.down
    turn = 90.0 * lie.quarters if lie.askew else (lie.yaw or 0.0)
    words = _mounted_words(lie, below)
    if below:
        return Seen(_mirrored(placed), words, -turn, True)
    return Seen(placed, words, turn, False)


def _on_side(edge: tuple[RingPlace, ...], side: str) -> tuple[RingPlace, ...]:
    return tuple(p for p in edge if p.under == (side == "under"))


def _longest(edge: tuple[RingPlace, ...]) -> float:
    return max((mono_width(p.pad, TYPE) for p in edge), default=0.0) + _OUT + 1.0


def _length(first: tuple[RingPlace, ...], second: tuple[RingPlace, ...]) -> float:
    return PITCH * (max(len(first), len(second), 1) - 1) + 2 * _CORNER


@value_class(frozen=True, slots=True)
class BoardRim:
    """The board's rectangle on the page."""

    left: float
    top: float
    width: float
    height: float


def _places(edge: str, count: int, box: BoardRim) -> list[PadPlace]:
    """Contacts along an edge, about its middle."""
    inward = _INWARD[edge]
    upright = edge in ("left", "right")
    start, long = (box.top, box.height) if upright else (box.left, box.width)
    first = start + (long - PITCH * (count - 1)) / 2
    at = {"left": box.left, "right": box.left + box.width}.get(edge, box.top)
    at = box.top + box.height if edge == "rear" else at
    along = [first + PITCH * i for i in range(count)]
    return [PadPlace(*((at, v) if upright else (v, at)), inward) for v in along]


def _dots(row: list[PadPlace]) -> Line | None:
    """The contacts of an edge as one line, which the style breaks into a dot every PITCH; a little
    longer, so that the last dot is drawn.
    """
    if not row:
        return None
    first, last = row[0], row[-1]
    upright = first.inward[0] != 0.0
    end = (last.x, last.y + 0.1) if upright else (last.x + 0.1, last.y)
    return Line(((first.x, first.y), end), "dot free")


def _name_words(pad: str, place: PadPlace) -> Words:
    """A contact's name, outside the rim."""
    dx, dy = place.inward
    if dx:
        at = place.x - dx * _OUT, place.y + 0.35 * TYPE
        return Words(*at, pad, TYPE, "end" if dx > 0 else "start", "mono soft")
    at = place.x + 0.35 * TYPE, place.y - dy * _OUT
    return Words(*at, pad, TYPE, "start" if dy > 0 else "end", "mono soft", -90)


def _letters(box: BoardRim, margin: float) -> list[Item]:
    """L and R at the sides of a board that is seen from below: the aircraft's left is right."""
    y = box.top - 1.2
    return [
        Words(box.left - margin + 1.0, y, "R", 4.0, "start", "strong"),
        Words(box.left + box.width + margin - 1.0, y, "L", 4.0, "end", "strong"),
    ]


def board_seen(build: Build, key: str, piece: str, side: str) -> BoardView | None:
    """A side of a board; None where the build has no such part or nobody says an edge of it."""
    fitted = build.parts.get(key)
    if fitted is None:
        return None
    view = seen(build, fitted, side)
    return _side_drawn(piece, view, side)


def part_seen(name: str, part: Part, side: str) -> BoardView | None:
    """A side of a part by itself, on no aircraft; None where nobody says an edge of it."""
    around = ring(part)
    if side == "under":
        view = Seen(_mirrored(around), "turned over, arrow up", 0.0, False)
        return _side_drawn(name, view, side)
    return _side_drawn(name, Seen(around, "arrow up", 0.0, False), side)


def _side_drawn(name: str, view: Seen, side: str) -> BoardView | None:
    edges: dict[str, tuple[RingPlace, ...]] = {
        e: _on_side(getattr(view.edges, e), side) for e in EDGES
    }
    if not any(edges.values()):
        return None
    return _drawn(f"{name}-{side}", f"{name}, {view.said}", edges, view)


def _drawn(name: str, title: str, edges: dict[str, tuple[RingPlace, ...]], view: Seen) -> BoardView:
    width = max(_LEAST[0], _length(edges["front"], edges["rear"]))
    height = max(_LEAST[1], _length(edges["left"], edges["right"]))
    left, right = (_longest(edges[e]) for e in ("left", "right"))
    front, rear = (_longest(edges[e]) for e in ("front", "rear"))
    front = max(front, _FOR_LETTERS) if view.lettered else front
    own_arrow = [Words(5.5, 7.7, OWN_ARROW, TYPE)] if view.turn % 360.0 else []
    front += 4.0 * len(own_arrow)
    whole = max(_WIDTH, left + width + right, words_width(title, TYPE) + 6.0)
    box = BoardRim((whole - width - left - right) / 2 + left, _HEAD + front, width, height)
    items: list[Item] = [
        *arrow(2.4, 2.5, view.turn),
        Words(5.5, 3.6, title, TYPE),
        *own_arrow,
        Rectangle(box.left, box.top, width, height, "fill", 1.5),
    ]
    pads: dict[str, PadPlace] = {}
    for edge in EDGES:
        placed = _places(edge, len(edges[edge]), box)
        pads |= {p.pad: at for p, at in zip(edges[edge], placed, strict=True)}
    items += [row for e in EDGES if (row := _dots([pads[p.pad] for p in edges[e]])) is not None]
    items += [_name_words(pad, at) for pad, at in pads.items()]
    if view.lettered:
        items += _letters(box, min(left, right, 8.0))
    bottom = box.top + height + rear
    return BoardView(
        name, view.said, KeptShapes(name, tuple(items)), pads, whole, bottom, (width, height)
    )


def cross(at: PadPlace) -> list[Item]:
    """A cross over a contact that must not be bridged."""
    x, y, r = at.x, at.y, 1.3
    return [
        Line(((x - r, y - r), (x + r, y + r)), "lit"),
        Line(((x - r, y + r), (x + r, y - r)), "lit"),
    ]
