"""Where the contacts of a board stand when each of them has room for all of its wires, and how much
room names and words take.
"""

from collections.abc import Mapping
from math import ceil

from builder.frozen import value_class
from builder.pages.drawing import Anchor, Words
from builder.pages.drawings.ring import RingPlace
from builder.pages.drawings.text_size import close_width, mono_width
from builder.pages.views.wire_ends import WireEnd

WIRE_PITCH = 4.0  # mm between wires
WIRE_TYPE = 3.1  # mm
WIRE_STUB = 3.0  # mm of a wire that is drawn
FROM_RIM = 1.5  # mm from the rim to a name
BEYOND = 1.0  # mm from a wire to its words
_PHONE = 98.0  # mm that a phone shows with type that can be read
_LEAST = 24.0  # mm
EndsByPad = Mapping[str, tuple[WireEnd, ...]]
WireEdge = tuple[RingPlace, ...]
WireEdges = Mapping[str, WireEdge]
RimSpot = tuple[float, float]
_INWARD = {"front": (0.0, 1.0), "right": (-1.0, 0.0), "rear": (0.0, -1.0), "left": (1.0, 0.0)}


@value_class(frozen=True, slots=True)
class WireRim:
    """A board's rectangle, and how far names reach into it from each edge."""

    x: float
    y: float
    width: float
    height: float
    inner: Mapping[str, float]


@value_class(frozen=True, slots=True)
class WirePlace:
    """A contact on the rim: the way inward, and where its wires end, one beside the other."""

    dx: float
    dy: float
    spots: tuple[RimSpot, ...]

    @property
    def middle(self) -> RimSpot:
        """Where the contact's name stands."""
        (x0, y0), (x1, y1) = self.spots[0], self.spots[-1]
        return (x0 + x1) / 2, (y0 + y1) / 2

    def inward(self, spot: RimSpot, far: float) -> RimSpot:
        """A point so many mm inward of another, outward where it is less than nothing."""
        return spot[0] + self.dx * far, spot[1] + self.dy * far


def slots(edge: WireEdge, ends: EndsByPad) -> int:
    """How many wires side by side an edge has room for: one for a contact without any."""
    return sum(max(1, len(ends.get(p.pad, ()))) for p in edge)


def _deep(edge: WireEdge) -> float:
    """How far the longest name reaches into the board, and a socket's name beyond it."""
    names = max((mono_width(p.pad, WIRE_TYPE) for p in edge), default=-FROM_RIM) + FROM_RIM
    return names + (WIRE_TYPE + 1.0 if any(p.socket for p in edge) else 0.0)


def reach_out(edge: WireEdge, ends: EndsByPad) -> float:
    """How far the longest words beside an edge reach out of the board."""
    words = [e.words for p in edge for e in ends.get(p.pad, ())]
    wide = max((close_width(w, WIRE_TYPE) for w in words), default=-WIRE_STUB)
    return WIRE_STUB + BEYOND + wide


def rim_of(edges: WireEdges, ends: EndsByPad, top: float) -> tuple[WireRim, float]:
    """The board's rectangle, its words from `top` on, and the whole width."""
    outer = {name: reach_out(edge, ends) for name, edge in edges.items()}
    inner = {name: _deep(edge) for name, edge in edges.items()}
    across = max(slots(edges["front"], ends), slots(edges["rear"], ends))
    down = max(slots(edges["left"], ends), slots(edges["right"], ends))
    wide = max(inner["left"] + inner["right"] + 1.5, WIRE_PITCH * (across + 0.1), _LEAST)
    high = inner["front"] + inner["rear"] + WIRE_PITCH * (max(down, 2) + 0.8)
    needed = outer["left"] + wide + outer["right"]
    whole = max(_PHONE, needed)
    left = outer["left"] + (whole - needed) / 2
    rim = WireRim(ceil(left), ceil(top + outer["front"]), ceil(wide), ceil(high), inner)
    return rim, whole + 2.0


def _first(name: str, edge: WireEdge, ends: EndsByPad, rim: WireRim) -> float:
    """Where the first wire of an edge stands: all of them in the middle of the room that they have."""
    long = WIRE_PITCH * (slots(edge, ends) - 1)
    if name in ("left", "right"):
        room = rim.height - rim.inner["front"] - rim.inner["rear"]
        return ceil(rim.y + rim.inner["front"] + (room - long) / 2)
    return ceil(rim.x + (rim.width - long) / 2)


def wire_places(name: str, edge: WireEdge, ends: EndsByPad, rim: WireRim) -> dict[str, WirePlace]:
    """Each contact of an edge."""
    dx, dy = _INWARD[name]
    low, high = (rim.x, rim.x + rim.width) if dx else (rim.y, rim.y + rim.height)
    across = low if dx + dy > 0 else high
    at = _first(name, edge, ends, rim)
    out = {}
    for place in edge:
        count = max(1, len(ends.get(place.pad, ())))
        along = [at + WIRE_PITCH * k for k in range(count)]
        out[place.pad] = WirePlace(dx, dy, tuple((across, v) if dx else (v, across) for v in along))
        at += WIRE_PITCH * count
    return out


def words_along(at: RimSpot, words: str, way: RimSpot, tone: str, low: float) -> Words:
    """Words that begin at a point and go that way; upright where the way is. `low` is how far their
    base is below their middle: nothing where the style sets them by their middle.
    """
    x, y = at
    if way[0]:
        anchor: Anchor = "start" if way[0] > 0 else "end"
        return Words(x, y + low, words, WIRE_TYPE, anchor, tone)
    anchor = "end" if way[1] > 0 else "start"
    return Words(x + low, y, words, WIRE_TYPE, anchor, tone, -90)
