"""A board with every wire that leaves it: as it lies, contacts in physical order, at each of them the
wires with their letters, far ends and steps. A wire or a contact marks its net, and leads to its
step.
"""

from collections.abc import Mapping

from builder.frozen import value_class
from builder.model.build import Build, Contact, Fitted
from builder.pages.drawing import Drawing, Item, Line, Marked, MarkedTogether, Rectangle, Words
from builder.pages.drawings.board_box import arrow
from builder.pages.drawings.ring import EDGES, ring
from builder.pages.drawings.text_size import mono_width
from builder.pages.views.board_slots import (
    BEYOND,
    FROM_RIM,
    WIRE_PITCH,
    WIRE_STUB,
    WIRE_TYPE,
    EndsByPad,
    WireEdge,
    WirePlace,
    WireRim,
    reach_out,
    rim_of,
    wire_places,
    words_along,
)
from builder.pages.views.board_view import OWN_ARROW, Seen, seen
from builder.pages.views.wire_ends import WireEnd

_HEAD = 3.6  # mm from the top to the title
_LETTER = 4.0  # mm, type of L and R
_LOOSE = 18.0  # mm from the left to the wires of contacts without a place
NetMark = tuple[str, Marked]


@value_class(frozen=True, eq=False)
class FaceDrawn:
    """A face: its shapes, the marks of its wires by net, and how wide and how far down it is."""

    items: tuple[Item, ...]
    marks: tuple[NetMark, ...]
    right: float
    bottom: float


def _pad_name(pad: str, at: WirePlace, tone: str, low: float) -> Words:
    return words_along(at.inward(at.middle, FROM_RIM), pad, (at.dx, at.dy), tone, low)


def _tone(end: WireEnd) -> str:
    """Plugs are broken lines; a wire whose colour nobody says has a tone instead."""
    if end.plug:
        return "plug"
    return "" if end.colour else "plain"


def _marks(pad: str, at: WirePlace, ends: tuple[WireEnd, ...]) -> list[NetMark]:
    """The wires of a contact, each by the name of its net; the first one has the contact's name."""
    out = []
    for k, (end, spot) in enumerate(zip(ends, at.spots, strict=False)):
        line = Line((spot, at.inward(spot, -WIRE_STUB)), _tone(end), end.colour)
        beyond = at.inward(spot, -WIRE_STUB - BEYOND)
        words = words_along(beyond, end.words, (-at.dx, -at.dy), "", 0.0)
        name: tuple[Item, ...] = () if k else (_pad_name(pad, at, "", 0.0),)
        out.append((end.net, Marked((*name, line, words), end.link, "")))
    return out


def _socket_items(edge: WireEdge, places: Mapping[str, WirePlace]) -> list[Item]:
    """The body of each socket with its name, and a square at its first contact (common practice, no
    source).
    """
    items: list[Item] = []
    for name in dict.fromkeys(p.socket for p in edge if p.socket):
        own = [p for p in edge if p.socket == name]
        at = places[own[0].pad]
        spots = [spot for p in own for spot in places[p.pad].spots]
        deep = max(mono_width(p.pad, WIRE_TYPE) for p in own) + FROM_RIM + 0.6
        items += _socket_body(name, spots, at, deep)
        first = next((p for p in own if p.position == 1), own[0])
        x, y = places[first.pad].middle
        items.append(Rectangle(x - 1.1, y - 1.1, 2.2, 2.2, "solid"))
    return items


def _socket_body(
    name: str, spots: list[tuple[float, float]], at: WirePlace, deep: float
) -> list[Item]:
    """Its rectangle, and its name along it, further in."""
    half = WIRE_PITCH / 2
    reach = at.inward((0.0, 0.0), deep)
    xs, ys = ([spot[i] for spot in spots] for i in (0, 1))
    xs += [v + e for v in xs for e in ((reach[0],) if at.dx else (-half, half))]
    ys += [v + e for v in ys for e in ((reach[1],) if at.dy else (-half, half))]
    left, top = min(xs), min(ys)
    body = Rectangle(left, top, max(xs) - left, max(ys) - top, "pad", 0.4)
    middle = left + body.width / 2, top + body.height / 2
    x, y = at.inward(middle, deep / 2 + 0.6 * WIRE_TYPE)
    low = 0.35 * WIRE_TYPE
    if at.dx:
        return [body, Words(x + low, y, name, WIRE_TYPE, "middle", "soft", -90)]
    return [body, Words(x, y + low, name, WIRE_TYPE, "middle", "soft")]


def _letters(rim: WireRim) -> list[Item]:
    """L and R over a board that is seen from below: the aircraft's left is drawn right."""
    y = rim.y - 1.0
    right = Words(rim.x - 4.5, y, "R", _LETTER, "start", "strong")
    return [right, Words(rim.x + rim.width + 4.5, y, "L", _LETTER, "end", "strong")]


def _casing(at: WirePlace) -> list[Item]:
    """WireEdges below the wires, so that white ones show."""
    return [Line((s, at.inward(s, -WIRE_STUB)), "wire-edge", "", 1.1) for s in at.spots]


def _dot(at: WirePlace, *, wired: bool) -> Line:
    """A contact on the rim: longer where it takes more than one wire."""
    return Line((at.spots[0], at.spots[-1]), "dot" if wired else "dot soft", "", 1.7 - (not wired))


def _contacts(places: Mapping[str, WirePlace], ends: EndsByPad) -> list[Item]:
    """All contacts with the edges of their wires, and the names of those without a wire."""
    wired = [at for pad, at in places.items() if ends.get(pad)]
    free = {pad: at for pad, at in places.items() if not ends.get(pad)}
    items = [i for at in wired for i in _casing(at)]
    items += [_dot(at, wired=True) for at in wired]
    items += [_dot(at, wired=False) for at in free.values()]
    names = [_pad_name(pad, at, "mono soft", 0.35 * WIRE_TYPE) for pad, at in free.items()]
    return items + sorted(names, key=_across)


def _across(words: Words) -> tuple[float, float]:
    return words.turn, words.x


def _face(
    edges: Mapping[str, WireEdge], view: Seen, ends: EndsByPad, title: str, top: float
) -> FaceDrawn:
    """One face, its title at `top`."""
    note = [Words(5.5, top + 4.0, OWN_ARROW, WIRE_TYPE)] if view.turn % 360.0 else []
    high = top + 1.5 + 4.0 * len(note) + (_LETTER if view.lettered else 0.0)
    rim, whole = rim_of(edges, ends, high)
    board = Rectangle(rim.x, rim.y, rim.width, rim.height, "fill", 1.5)
    items: list[Item] = [*arrow(2.4, top - 1.1, view.turn), Words(5.5, top, title, WIRE_TYPE)]
    items += [*note, board]
    marks: list[NetMark] = []
    every: dict[str, WirePlace] = {}
    for name, edge in edges.items():
        places = wire_places(name, edge, ends, rim)
        items += _socket_items(edge, places)
        every |= places
        for pad, at in places.items():
            marks += _marks(pad, at, ends.get(pad, ()))
    items += _contacts(every, ends)
    if view.lettered:
        items += _letters(rim)
    bottom = rim.y + rim.height + reach_out(edges["rear"], ends)
    return FaceDrawn(tuple(items), tuple(marks), whole, bottom)


def _loose(fitted: Fitted, ends: EndsByPad, top: float) -> FaceDrawn:
    """Wires of contacts whose place nobody says, in rows."""
    marks: list[NetMark] = []
    y = top
    for place in ring(fitted.part).loose:
        own = ends.get(place.pad, ())
        spots = tuple((_LOOSE, y + WIRE_PITCH * (k + 1)) for k in range(len(own)))
        if own:
            marks += _marks(place.pad, WirePlace(-1.0, 0.0, spots), own)
        y += WIRE_PITCH * len(own)
    if not marks:
        return FaceDrawn((), (), 0.0, top)
    head = Words(1.0, top, "place not stated:", WIRE_TYPE, tone="soft")
    return FaceDrawn((head,), tuple(marks), 0.0, y + 2.0)


def _faces(build: Build, fitted: Fitted, board: str, ends: EndsByPad) -> list[FaceDrawn]:
    found: list[FaceDrawn] = []
    top = _HEAD
    for side in ("top", "under"):
        view = seen(build, fitted, side)
        edges: dict[str, WireEdge] = {
            e: tuple(p for p in getattr(view.edges, e) if p.under == (side == "under"))
            for e in EDGES
        }
        if any(edges.values()):
            found.append(_face(edges, view, ends, f"{board}, {view.said}", top))
            top = found[-1].bottom + 6.0
    if found:
        found.append(_loose(fitted, ends, found[-1].bottom + 4.0))
    return found


def board_wires(
    build: Build, board: str, fitted: Fitted, ends: Mapping[Contact, tuple[WireEnd, ...]]
) -> Drawing | None:
    """The board with all of its wires; None where nobody says an edge of it."""
    own = {c.pad: e for c, e in ends.items() if c.board == board}
    faces = _faces(build, fitted, board, own)
    if not faces:
        return None
    nets: dict[str, list[Marked]] = {}
    for net, mark in (m for face in faces for m in face.marks):
        nets.setdefault(net, []).append(mark)
    items = [i for face in faces for i in face.items]
    marked = [MarkedTogether(tuple(marks)) for marks in nets.values()]
    wide = max(face.right for face in faces)
    alt = f"{board} with every wire that leaves it."
    return Drawing(f"wires-{board}", wide, faces[-1].bottom + 1.0, (*items, *marked), alt)
