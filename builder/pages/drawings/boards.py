"""What the wiring drawing joins: boards with their contacts as numbers, and which wire ends at
which contact.
"""

from collections import Counter
from dataclasses import dataclass
from typing import Literal

from builder.compute.circuit.contacts import Join
from builder.compute.circuit.nets import Netlist
from builder.compute.geometry.orientation import BoardLie, lies
from builder.model.build import Build, Contact, Fitted, piece_name
from builder.model.kinds import CombinedBoard, FlightController, Motor, Part, SpeedController
from builder.pages.drawings.ring import EDGES, Ring, RingPlace, ring

BoardSide = Literal["left", "right"]
SIDES: tuple[BoardSide, ...] = ("left", "right")


@dataclass(frozen=True, slots=True)
class Pin:
    """A contact of the drawing. `number` is its place in `Boards.pins`."""

    number: int
    contact: Contact
    place: RingPlace
    wires: int


@dataclass(frozen=True)
class Board:
    """A piece of a part. Pins stand edge by edge as in `Ring`, as it is mounted: seen from above,
    nose up.

    `any_order` says that its leads can lie in any order. `side` and `row` (front 0, middle 1, rear
    2) are where a motor sits in the aircraft; None where nobody says, and for all other parts.
    """

    name: str
    part: Part
    edges: dict[str, tuple[Pin, ...]]
    middle: bool
    any_order: bool
    lies: BoardLie
    side: BoardSide | None = None
    row: int | None = None

    @property
    def plain(self) -> bool:
        """Whether it is drawn as its maker draws it: arrow up, face up."""
        return not self.lies.down and not self.lies.quarters

    @property
    def note(self) -> str:
        """What has to be said of how a board of the middle is drawn; '' for one that lies as its
        maker draws it.
        """
        if not self.middle:
            return ""
        yaw = self.lies.yaw
        said = ["direction not known: drawn arrow up"] if yaw is None else []
        if yaw is not None and (self.lies.quarters or self.lies.askew):
            drawn = f", drawn at {90 * self.lies.quarters}°" if self.lies.askew else ""
            said.append(f"turned {yaw:.0f}° clockwise{drawn}")
        if self.lies.down:
            said.append("face down, seen through: mirrored")
        return "; ".join(said)

    @property
    def pins(self) -> tuple[Pin, ...]:
        """All its pins."""
        return tuple(p for edge in (*EDGES, "loose") for p in self.edges[edge])


def _corner(build: Build, fitted: Fitted, piece: int) -> tuple[BoardSide | None, int | None]:
    """The side and row of a motor whose corner the setup names; motors of more than one part are
    not told apart.
    """
    plan = build.source.setup.rotation
    if plan is None or not isinstance(fitted.part, Motor) or len(build.of_kind(Motor)) != 1:
        return None, None
    words = plan.corners.get(str(piece or 1), "").split()
    if not words:
        return None, None
    side: BoardSide | None = next((s for s in SIDES if s in words), None)
    row = next((i for i, end in ((0, "front"), (2, "rear")) if end in words), 1)
    return side, row


@dataclass(frozen=True)
class Boards:
    """All boards at which a wire or plug ends, their pins, and the pins that each wire joins."""

    boards: tuple[Board, ...]
    pins: tuple[Pin, ...]
    joins: tuple[Join, ...]
    ends: tuple[tuple[int, int], ...]

    def of(self, pin: int) -> Pin:
        """A pin by its number."""
        return self.pins[pin]


def _any_order(part: Part, around: Ring) -> bool:
    """Loose leads and the plugs on them can be laid in any order; contacts on a board's edge
    cannot.
    """
    return not any(getattr(around, edge) for edge in EDGES)


def _middle(build: Build, touched: Counter[Contact]) -> frozenset[tuple[str, int]]:
    """Control boards and speed controllers; where there are none, the piece with the most wires."""
    wires: Counter[tuple[str, int]] = Counter()
    for contact, count in touched.items():
        wires[contact.part, contact.piece] += count
    kinds = (SpeedController, FlightController, CombinedBoard)
    found = frozenset(k for k in wires if isinstance(build.parts[k[0]].part, kinds))
    return found or frozenset(sorted(wires, key=lambda k: (-wires[k], k))[:1])


def drawn_boards(build: Build, nets: Netlist) -> Boards:
    """The boards of a build in the order of its file; pieces without a wire are left out."""
    joins = tuple(j for j in nets.joins if j.by != "inside")
    touched: Counter[Contact] = Counter()
    for join in joins:
        touched[join.a] += 1
        touched[join.b] += 1
    middle = _middle(build, touched)
    wired = {(c.part, c.piece) for c in touched}
    boards: list[Board] = []
    pins: list[Pin] = []
    for fitted in build.parts.values():
        placed = lies(fitted)
        around = ring(fitted.part).mounted(placed.quarters, placed.down)
        for piece in fitted.pieces:
            if (fitted.key, piece) not in wired:
                continue
            edges = {}
            for edge in (*EDGES, "loose"):
                places: tuple[RingPlace, ...] = getattr(around, edge)
                made: list[Pin] = []
                for place in places:
                    contact = Contact(fitted.key, piece, place.pad)
                    made.append(Pin(len(pins) + len(made), contact, place, touched[contact]))
                pins += made
                edges[edge] = tuple(made)
            name = piece_name(fitted.key, piece)
            is_middle = (fitted.key, piece) in middle
            free = not is_middle and _any_order(fitted.part, around)
            side, row = _corner(build, fitted, piece)
            boards.append(Board(name, fitted.part, edges, is_middle, free, placed, side, row))
    number = {p.contact: p.number for p in pins}
    return Boards(
        tuple(boards), tuple(pins), joins, tuple((number[j.a], number[j.b]) for j in joins)
    )
