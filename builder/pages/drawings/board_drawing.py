"""A board by itself: contacts in physical order as seen onto its top with the arrow up; the
underside mirrored.

It is the board in the hand, as the pinout names its edges; how it lies in the aircraft its caption
says.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from builder.compute.circuit.nets import Netlist
from builder.model.build import Build, Contact, piece_name, piece_names
from builder.model.source.electrical import EdgeName
from builder.pages.drawing import Anchor, Circle, Drawing, Item, Rectangle, Words
from builder.pages.drawings.board_box import arrow
from builder.pages.drawings.ring import EDGES, RingPlace, ring
from builder.pages.drawings.text_size import mono_width, words_width

PITCH = 4.0  # mm between contacts
_CORNER = 6.0  # mm from a corner to the first contact
_NAME = 3.2  # mm, type of the board's name
_PAD = 2.6  # mm, type of contacts
_SMALL = 2.5  # mm, type of the view and of sockets: 7 pt on paper
_STEP = 2.5  # mm, type of the steps at contacts
_INSIDE = 1.5  # mm from the rim to a step's number
_OUT = 1.6  # mm from the rim to a contact's name
_WORDS = 14.0  # mm that arrow, name and view take in the middle of a board
_FLAT = 8.0  # mm that they take where the arrow stands beside the name
_RIM = 0.8  # mm that an edge without contacts takes
_LEAST = 68.0  # mm, so that the type of small boards is not larger than that of large ones
_DEEP = 3.4  # mm that a socket reaches into the board
_BELOW = "underside, left and right swapped"
_ABOVE = "top, arrow up"
Edge = tuple[RingPlace, ...]


@dataclass(frozen=True, slots=True)
class Face:
    """One face as drawn: each edge from left to right or from top to bottom of the picture, and
    which are wired.
    """

    name: str
    view: str
    front: Edge
    right: Edge
    rear: Edge
    left: Edge
    wired: frozenset[str]
    size: tuple[float, float] = (0.0, 0.0)
    steps: Mapping[str, str] = field(default_factory=dict)

    def _deep(self, edge: Edge) -> float:
        """The room that the longest name beyond an edge takes, in mm."""
        return max((mono_width(p.pad, _PAD) for p in edge), default=-_OUT) + _OUT + 1.0

    @property
    def is_worked_on(self) -> bool:
        """Whether a step solders a contact of this face."""
        return any(p.pad in self.steps for e in EDGES for p in getattr(self, e))

    @property
    def margins(self) -> tuple[float, float, float, float]:
        """Room for names at the front, right, rear and left."""
        return (
            self._deep(self.front),
            self._deep(self.right),
            self._deep(self.rear),
            self._deep(self.left),
        )

    @property
    def least(self) -> tuple[float, float]:
        """The width and height that its contacts and words need."""
        words = max(words_width(self.name, _NAME), words_width(self.view, _SMALL))
        inside = words + 2 * max(map(self._taken, (self.left, self.right))) + 3
        width = max(len(self.front), len(self.rear)) * PITCH - PITCH + 2 * _CORNER
        height = max(len(self.left), len(self.right)) * PITCH - PITCH + 2 * _CORNER
        deep = self._taken(self.front) + self._taken(self.rear)
        within = deep + _FLAT if self.steps else 2 * _DEEP + _WORDS
        return max(width, inside), max(height, within)

    @property
    def free(self) -> tuple[float, float]:
        """From where to where its middle is free for words, in mm from its front."""
        return self._taken(self.front), self.size[1] - self._taken(self.rear)

    def _taken(self, edge: Edge) -> float:
        """How far its sockets, and the numbers of the steps at its contacts, reach into the board. Where
        steps are shown, an edge without contacts takes no more than its rim.
        """
        if self.steps and not edge:
            return _RIM
        said = [self.steps[p.pad] for p in edge if p.pad in self.steps]
        numbers = (_INSIDE + words_width(number, _STEP) for number in said)
        return max((_DEEP, *numbers))


def faces(build: Build, nets: Netlist, key: str, piece: int) -> tuple[tuple[Face, ...], Edge]:
    """The top, the underside if it has contacts, and contacts whose place nobody states."""
    part = build.parts[key].part
    around = ring(part)
    wired = frozenset(p for p in part.pads if Contact(key, piece, p) in nets.at)
    name = piece_name(key, piece)

    def picked(under: bool) -> dict[EdgeName, Edge]:
        edges: dict[EdgeName, Edge] = {e: getattr(around, e) for e in EDGES}
        return {e: tuple(p for p in found if p.under == under) for e, found in edges.items()}

    top, low = picked(under=False), picked(under=True)
    found = []
    if any(top.values()):
        found.append(
            Face(name, _ABOVE, top["front"], top["right"], top["rear"], top["left"], wired)
        )
    if any(low.values()):  # turned over about its arrow: right and left change places
        front, rear = low["front"][::-1], low["rear"][::-1]
        found.append(Face(name, _BELOW, front, low["left"], rear, low["right"], wired))
    width, height = (max((f.least[i] for f in found), default=0.0) for i in (0, 1))
    return tuple(replace(f, size=(width, height)) for f in found), around.loose


def _along(count: int, length: float) -> list[float]:
    """Distances of contacts from the start of an edge; they stand about its middle."""
    first = (length - PITCH * (count - 1)) / 2
    return [first + PITCH * i for i in range(count)]


def _sockets(edge: Edge, places: list[float], at: float, upright: bool, inward: int) -> list[Item]:
    """The bodies of sockets on an edge, with their names."""
    spans: dict[str, list[float]] = {}
    for place, along in zip(edge, places, strict=True):
        if place.socket:
            spans.setdefault(place.socket, []).append(along)
    items: list[Item] = []
    for name, span in spans.items():
        low, length = min(span) - PITCH * 0.4, max(span) - min(span) + PITCH * 0.8
        start = at if inward > 0 else at - _DEEP
        middle, base = low + length / 2, start + _DEEP / 2
        if upright:
            items.append(Rectangle(start, low, _DEEP, length, "pad", 0.4, title=f"socket {name}"))
            items.append(
                Words(
                    base + 0.35 * _SMALL + 0.3 * inward, middle, name, _SMALL, "middle", "soft", -90
                )
            )
        else:
            items.append(Rectangle(low, start, length, _DEEP, "pad", 0.4, title=f"socket {name}"))
            items.append(
                Words(middle, base + 0.35 * _SMALL + 0.3 * inward, name, _SMALL, "middle", "soft")
            )
    return items


def _contact(place: RingPlace, x: float, y: float, wired: bool) -> Item:
    """A contact: filled where a wire ends; a square for the first of a socket (common practice, no
    source).
    """
    tone = "solid" if wired else "pad"
    if place.position == 1:
        return Rectangle(
            x - 0.8, y - 0.8, 1.6, 1.6, tone, title=f"{place.pad}, contact 1 of {place.socket}"
        )
    return Circle(x, y, 0.9, tone)


def _step_number(number: str, x: float, y: float, upright: bool, low: bool) -> Words:
    """The number of the step that solders a contact, on the board beside it."""
    inward = -_INSIDE if low else _INSIDE
    if upright:
        return Words(
            x + inward, y + 0.35 * _STEP, number, _STEP, "end" if low else "start", "strong"
        )
    anchor: Anchor = "start" if low else "end"
    return Words(x + 0.35 * _STEP, y + inward, number, _STEP, anchor, "strong", -90)


def _edge(face: Face, name: EdgeName, left: float, top: float) -> list[Item]:
    """Sockets, contacts and their names along one edge."""
    edge: Edge = getattr(face, name)
    width, height = face.size
    upright = name in ("left", "right")
    low = name in ("right", "rear")
    start, length, near, depth = (
        (top, height, left, width) if upright else (left, width, top, height)
    )
    at = near + depth if low else near
    places = [start + d for d in _along(len(edge), length)]
    items = _sockets(edge, places, at, upright, -1 if low else 1)
    out = _OUT if low else -_OUT
    for place, along in zip(edge, places, strict=True):
        x, y = (at, along) if upright else (along, at)
        items.append(_contact(place, x, y, place.pad in face.wired))
        tone = "mono" if place.pad in face.wired else "mono soft"
        if upright:
            anchor: Anchor = "start" if low else "end"
            items.append(Words(x + out, y + 0.35 * _PAD, place.pad, _PAD, anchor, tone))
        else:
            anchor = "end" if low else "start"
            items.append(Words(x + 0.35 * _PAD, y + out, place.pad, _PAD, anchor, tone, -90))
        if place.pad in face.steps:
            items.append(_step_number(face.steps[place.pad], x, y, upright, low))
    return items


def _face(face: Face, left: float, top: float) -> list[Item]:
    width, height = face.size
    middle = left + width / 2
    items: list[Item] = [Rectangle(left, top, width, height, "fill", 1.5)]
    items += _title(face, middle, top)
    for edge in EDGES:
        items += _edge(face, edge, left, top)
    return items


def _title(face: Face, middle: float, top: float) -> list[Item]:
    """The arrow to the front, above the name and the view; beside the name where a board is too flat
    for that.
    """
    first, last = face.free
    flat = last - first < _WORDS
    centre = top + (first + last) / 2 - (3.4 if flat else 0.0)
    beside = words_width(face.name, _NAME) / 2 + 2.5
    at = (middle - beside, centre + 1.2) if flat else (middle, centre - 4.0)
    return [
        *arrow(*at),
        Words(middle, centre + 2.2, face.name, _NAME, "middle", "strong"),
        Words(middle, centre + 5.8, face.view, _SMALL, "middle", "soft"),
    ]


def _rows(loose: Edge, width: float) -> list[str]:
    """Names of contacts whose place nobody states, in lines that fit."""
    rows: list[str] = ["place not stated:"] if loose else []
    for place in loose:
        longer = f"{rows[-1]} {place.pad}"
        if mono_width(longer, _SMALL) > width and len(rows[-1]) > 0:
            rows.append(place.pad)
        else:
            rows[-1] = longer
    return rows


def board_drawing(
    build: Build,
    nets: Netlist,
    board: str,
    steps: Mapping[str, str] | None = None,
    least: float = _LEAST,
) -> Drawing:
    """A board of a build by the name of its piece (`esc`, `motor.1`): what to count contacts by,
    not to scale. `steps` are the numbers of the steps that solder its contacts; it is at least `least` mm
    wide. With steps it shows the faces that they solder.

    KeyError where the build has no such piece. A part that states no edges gives its contacts as a
    list.
    """
    pieces = {piece_name(f.key, p): (f.key, p) for f in build.parts.values() for p in f.pieces}
    key, piece = pieces[board]
    shown, loose = faces(build, nets, key, piece)
    found = [replace(face, steps=steps or {}) for face in shown]
    found = [replace(f, size=f.least) for f in found if f.is_worked_on] or found
    left = max((f.margins[3] for f in found), default=1.0)
    needed = left + max((f.size[0] + f.margins[1] for f in found), default=0.0)
    width = max(needed, least)
    left += (width - needed) / 2
    items: list[Item] = []
    y = 0.0
    for face in found:
        front, _, rear, _ = face.margins
        items += _face(face, left, y + front)
        y += front + face.size[1] + rear + 2.0
    for row in _rows(loose, width - 2):
        y += 3.6
        items.append(Words(1.0, y, row, _SMALL, "start", "mono soft"))
    part = build.parts[key].part
    views = " and ".join(f.view for f in found) or "contacts without a stated place"
    alt = (
        f"{part.name} with its contacts in physical order, its arrow up: {views}. The table says"
        " the same in words."
    )
    return Drawing(f"board-{build.name}-{board}", width, y + 1.5, tuple(items), alt)


def is_drawn(build: Build, board: str) -> bool:
    """Whether the build has this piece and says where a contact of it is."""
    fitted = next((f for f in build.parts.values() if board in piece_names(f)), None)
    return fitted is not None and any(getattr(ring(fitted.part), edge) for edge in EDGES)
