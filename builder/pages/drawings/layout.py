"""Where boards and contacts of the wiring drawing lie: the busiest boards in the middle, all else left and right."""

from dataclasses import dataclass
from typing import Literal

from builder.compute.contacts import in_mating_order
from builder.compute.nets import Netlist
from builder.model.build import Build, Contact
from builder.model.kinds import CombinedBoard, FlightController, SpeedController

Side = Literal["left", "right"]
PITCH = 4.6  # mm between contacts
HEAD = 6.0  # mm for a board's name
GAP = 5.0  # mm between boards of a column
BOX = 30.0  # mm, width of a board at the sides
MIDDLE = 46.0  # mm, width of a board in the middle


@dataclass(frozen=True)
class Box:
    """A board: its corner, size, and the height of each contact on its left and right edge."""

    board: str
    title: str
    x: float
    y: float
    width: float
    height: float
    left: tuple[tuple[Contact, float], ...]
    right: tuple[tuple[Contact, float], ...]


@dataclass(frozen=True)
class Layout:
    """All boxes; `side` tells in which column a board outside the middle lies."""

    middle: tuple[Box, ...]
    left: tuple[Box, ...]
    right: tuple[Box, ...]

    @property
    def boxes(self) -> tuple[Box, ...]:
        """Every box."""
        return (*self.left, *self.middle, *self.right)


def _is_middle(build: Build, key: str) -> bool:
    return isinstance(build.parts[key].part, SpeedController | FlightController | CombinedBoard)


def wired_boards(build: Build, nets: Netlist) -> tuple[tuple[str, str, int], ...]:
    """(board, part, piece) of every piece at which a wire or plug ends, in the order of the file."""
    touched = {(c.part, c.piece) for c in nets.at}
    return tuple(
        (f"{f.key}.{p}" if p else f.key, f.key, p)
        for f in build.parts.values()
        for p in f.pieces
        if (f.key, p) in touched
    )


def _halves(build: Build, nets: Netlist, key: str, piece: int) -> tuple[list[Contact], list[Contact]]:
    """Wired contacts of a middle board on its left and right, each in physical order."""
    part = build.parts[key].part
    here = [Contact(key, piece, p) for p in part.pads]
    wired = {c.pad: c for c in here if c in nets.at}
    left = [p for p in (*part.edges.left, *part.edges.under.left) if p in wired]
    right = [p for p in (*part.edges.right, *part.edges.under.right) if p in wired]
    rest = [*part.edges.front, *part.edges.under.front, *part.edges.rear, *part.edges.under.rear]
    half = len(rest) // 2
    left += [p for p in rest[:half] if p in wired and p not in left]
    right += [p for p in rest[half:] if p in wired and p not in right]
    for socket in part.sockets.values():
        right += [p for p in in_mating_order(socket) if p in wired and p not in left + right]
    right += [p for p in part.pads if p in wired and p not in left + right]
    return [wired[p] for p in left], [wired[p] for p in right]


def _box(build: Build, board: str, x: float, y: float, width: float, left: list[Contact], right: list[Contact]) -> Box:
    rows = max(len(left), len(right), 1)

    def place(contacts: list[Contact]) -> tuple[tuple[Contact, float], ...]:
        return tuple((c, y + HEAD + PITCH * (i + 0.5)) for i, c in enumerate(contacts))

    return Box(board, board, x, y, width, HEAD + PITCH * rows + 1.5, place(left), place(right))


def _pull(nets: Netlist, contacts: list[Contact], where: dict[Contact, tuple[Side, float]]) -> tuple[Side, float]:
    """To which side a board is drawn by its wires to the middle, and at which height."""
    reached = [where[o] for c in contacts for j in nets.at.get(c, ()) for o in (j.a, j.b) if o in where]
    if not reached:
        return "right", 1e9
    lefts = sum(1 for side, _ in reached if side == "left")
    side: Side = "left" if lefts * 2 >= len(reached) else "right"
    heights = [y for s, y in reached if s == side] or [y for _, y in reached]
    return side, sum(heights) / len(heights)


def layout(build: Build, nets: Netlist, lanes_left: int, lanes_right: int, lane: float) -> Layout:
    """Places every wired board for a number of lanes left and right of the middle."""
    boards = wired_boards(build, nets)
    x_middle = BOX + lane * (lanes_left + 2)
    middle: list[Box] = []
    y = 4.0
    for board, key, piece in boards:
        if _is_middle(build, key):
            left, right = _halves(build, nets, key, piece)
            middle.append(_box(build, board, x_middle, y, MIDDLE, left, right))
            y = middle[-1].y + middle[-1].height + GAP * 2
    where: dict[Contact, tuple[Side, float]] = {}
    for box in middle:
        where.update({c: ("left", h) for c, h in box.left})
        where.update({c: ("right", h) for c, h in box.right})
    outer: dict[Side, list[tuple[float, str, list[Contact]]]] = {"left": [], "right": []}
    for board, key, piece in boards:
        if not _is_middle(build, key):
            contacts = [Contact(key, piece, p) for p in build.parts[key].part.pads if Contact(key, piece, p) in nets.at]
            side, height = _pull(nets, contacts, where)
            contacts.sort(
                key=lambda c: min((where[o][1] for j in nets.at[c] for o in (j.a, j.b) if o in where), default=1e9)
            )
            outer[side].append((height, board, contacts))
    columns: dict[Side, tuple[Box, ...]] = {}
    x_right = x_middle + MIDDLE + lane * (lanes_right + 2)
    for side, items in outer.items():
        y, made = 4.0, []
        for _, board, contacts in sorted(items, key=lambda i: (i[0], i[1])):
            left, right = ([], contacts) if side == "left" else (contacts, [])
            made.append(_box(build, board, 0.0 if side == "left" else x_right, y, BOX, left, right))
            y += made[-1].height + GAP
        columns[side] = tuple(made)
    return Layout(tuple(middle), columns["left"], columns["right"])
