"""The contacts around a board in physical order, edge by edge, as seen from above with the arrow
up.
"""

from dataclasses import dataclass

from builder.compute.circuit.contacts import in_mating_order
from builder.model.kinds import Part
from builder.model.source.electrical import EdgeName, Socket

EDGES: tuple[EdgeName, ...] = ("front", "right", "rear", "left")  # clockwise


@dataclass(frozen=True, slots=True)
class RingPlace:
    """A contact on its edge. `socket` and `position` (from 1, in mating order) are set for contacts
    of a socket.
    """

    pad: str
    edge: EdgeName | None
    under: bool = False
    socket: str = ""
    position: int = 0


@dataclass(frozen=True, slots=True)
class Ring:
    """Each edge from left to right or from top to bottom, seen from above; `loose` are those of no
    stated edge.
    """

    front: tuple[RingPlace, ...]
    right: tuple[RingPlace, ...]
    rear: tuple[RingPlace, ...]
    left: tuple[RingPlace, ...]
    loose: tuple[RingPlace, ...]

    def clockwise(self, edge: EdgeName) -> tuple[RingPlace, ...]:
        """An edge in clockwise order."""
        return _along(edge, getattr(self, edge))

    def mounted(self, quarters: int, down: bool) -> "Ring":
        """The edges as they look in the aircraft, seen from above with the nose up.

        A board that lies face down is turned over about the line from nose to tail, so that left
        and right change places and front and rear run the other way; then it is turned clockwise by
        quarters.
        """
        front, right, rear, left = self.front, self.right, self.rear, self.left
        if down:
            front, right, rear, left = front[::-1], left, rear[::-1], right
        over = Ring(front, right, rear, left, self.loose)
        placed: dict[str, tuple[RingPlace, ...]] = {}
        for i, edge in enumerate(EDGES):
            at = EDGES[(i + quarters) % 4]
            placed[at] = _along(at, over.clockwise(edge))
        return Ring(placed["front"], placed["right"], placed["rear"], placed["left"], self.loose)


def _along(edge: EdgeName, places: tuple[RingPlace, ...]) -> tuple[RingPlace, ...]:
    """From the order of the picture to clockwise order, and back: rear and left edge run against
    it.
    """
    return places if edge in ("front", "right") else places[::-1]


def _socket(name: str, socket: Socket) -> tuple[RingPlace, ...]:
    """A socket along its edge from left to right or from top to bottom, seen from above.

    Seen from outside with the latch up its contacts run counter-clockwise round the board, from
    left to right on the rear edge and from top to bottom on the left one; a latch that lies below
    the board turns that round.
    """
    order = [
        RingPlace(pad, socket.edge, socket.side == "under", name, i)
        for i, pad in enumerate(in_mating_order(socket), 1)
    ]
    counter_clockwise = (socket.latch or ("under" if socket.side == "under" else "top")) == "top"
    with_edge = socket.edge in ("rear", "left", None)
    return tuple(order if counter_clockwise == with_edge else order[::-1])


def ring(part: Part) -> Ring:
    """Every pad of a part once: pads of the top, of the underside, then sockets on each edge."""
    seen: set[str] = set()
    edges: dict[str, list[RingPlace]] = {}

    def add(key: str, place: RingPlace) -> None:
        if place.pad in part.pads and place.pad not in seen:
            seen.add(place.pad)
            edges.setdefault(key, []).append(place)

    for edge in EDGES:
        for pad in getattr(part.edges, edge):
            add(edge, RingPlace(pad, edge))
        for pad in getattr(part.edges.under, edge):
            add(edge, RingPlace(pad, edge, under=True))
    for name, socket in part.sockets.items():
        for place in _socket(name, socket):
            add(socket.edge or "loose", place)
    for pad in part.pads:
        add("loose", RingPlace(pad, None, under=part.pads[pad].side == "under"))
    return Ring(*(tuple(edges.get(k, ())) for k in (*EDGES, "loose")))
