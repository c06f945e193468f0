"""Where boards, contacts and wires of the wiring drawing lie, in millimetres.

Heights stand on a grid: contacts of the middle on whole steps, contacts at the sides half a step
lower. So two wires that leave opposite banks of a channel never run along the same line.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import fsum

from builder.pages.drawings.arrangement import Arrangement, Judge, Places
from builder.pages.drawings.boards import Board, Boards, BoardSide, Pin
from builder.pages.drawings.search import arrange

STEP = 2.2  # mm; a wire takes two steps, a contact without a wire one
_HEAD = 3  # steps for a board's name; one more where something is said of how it lies
_GAP = 2  # steps between boards of a column


@dataclass(frozen=True, slots=True)
class Slot:
    """A contact's place on one side of a board: its height, and the wires that end there with their
    heights.
    """

    pin: Pin
    y: float
    wires: tuple[tuple[int, float], ...]


@dataclass(frozen=True, slots=True)
class Box:
    """A board: from where to where it reaches, and its contacts on the left and right."""

    board: Board
    top: float
    bottom: float
    left: tuple[Slot, ...]
    right: tuple[Slot, ...]


@dataclass(frozen=True, slots=True)
class Columns:
    """All boards with their heights, and the height at which each wire that passes the middle does
    so.
    """

    left: tuple[Box, ...]
    middle: tuple[Box, ...]
    right: tuple[Box, ...]
    over: tuple[tuple[int, float], ...]

    @property
    def boxes(self) -> tuple[Box, ...]:
        """Every board."""
        return (*self.left, *self.middle, *self.right)


class _Ends:
    """In which order the wires of one contact, or the contacts of loose leads, cross least: the
    farthest first.
    """

    def __init__(self, boards: Boards, places: Places) -> None:
        self.places = places
        gap_of = {
            i: (k, slot) for k, found in enumerate(places.over()) for slot, i in enumerate(found)
        }
        self.at: dict[int, list[tuple[int, int]]] = {}
        for i, (a, b) in enumerate(boards.ends):
            for here, there in ((a, b), (b, a)):
                side = 0 if places.on_left[here] else 1
                far = places.rim[there]
                if i in gap_of:
                    far = places.gaps[side][gap_of[i][0]] + gap_of[i][1]
                away = (far - places.rim[here]) % places.length[side]
                self.at.setdefault(here, []).append((away, i))

    def wires(self, pin: Pin, downward: bool) -> tuple[int, ...]:
        """Wires of a contact from top to bottom; `downward` where the rim of the channel runs down
        there.
        """
        return tuple(i for _, i in sorted(self.at.get(pin.number, ()), reverse=downward))

    def loose(self, pins: Sequence[Pin]) -> tuple[Pin, ...]:
        """Contacts of loose leads at a side, from top to bottom; free ones last."""

        def away(pin: Pin) -> float:
            found = [d for d, _ in self.at.get(pin.number, ())]
            return -fsum(found) / len(found) if found else 1.0

        return tuple(sorted(pins, key=lambda p: (away(p), p.number)))


def _head(board: Board) -> int:
    return _HEAD + bool(board.note)


def _steps(pins: Sequence[Pin]) -> int:
    return sum(2 * p.wires or 1 for p in pins)


def _slots(ends: _Ends, pins: Sequence[Pin], start: float, downward: bool) -> tuple[Slot, ...]:
    out = []
    step = 0
    for pin in pins:
        wires = ends.wires(pin, downward)
        found = tuple((i, start + STEP * (step + 2 * n + 1)) for n, i in enumerate(wires))
        height = 2 * len(wires) or 1
        out.append(Slot(pin, start + STEP * (step + height / 2), found))
        step += height
    return tuple(out)


def _middle(
    judge: Judge, a: Arrangement, ends: _Ends
) -> tuple[tuple[Box, ...], tuple[tuple[int, float], ...]]:
    passing = ends.places.over()
    boxes: list[Box] = []
    over: list[tuple[int, float]] = []
    y = 0.0
    for level in range(len(a.middle) + 1):
        count = len(passing[level])
        over += [(i, y + STEP * (2 + count - 1 - n)) for n, i in enumerate(passing[level])]
        if level == len(a.middle):
            break
        y += STEP * (count + 4 if count else _GAP * 2)
        lies = a.middle[level]
        left, right = judge.middle(lies)
        board = judge.boards.boards[lies.board]
        head = _head(board)
        rows = max(_steps(left), _steps(right))
        found = []
        for pins in (left, right):
            first = y + STEP * (head + (rows - _steps(pins)) // 2)
            found.append(_slots(ends, pins, first, downward=False))
        bottom = y + STEP * (head + rows + 0.5)
        boxes.append(Box(board, y, bottom, found[0], found[1]))
        y += STEP * (head + rows + 1)
    return tuple(boxes), tuple(over)


def _best_start(block: tuple[float, int]) -> float:
    """Where a block would begin best: the mean of what its boards want."""
    total, count = block
    return total / count


def stacked(wanted: Sequence[float], heights: Sequence[float]) -> tuple[float, ...]:
    """Upper ends of boards in a column, as near as can be to those wanted without overlap (least
    squares).
    """
    blocks: list[
        tuple[float, int]
    ] = []  # sum of what each board of a block wants for the block's start, and how many
    before = 0.0
    for want, height in zip(wanted, heights, strict=True):
        blocks.append((want - before, 1))
        before += height
        while len(blocks) > 1 and _best_start(blocks[-2]) > _best_start(blocks[-1]):
            (s1, n1), (s2, n2) = blocks[-2:]
            blocks[-2:] = [(s1 + s2, n1 + n2)]
    out: list[float] = []
    before = 0.0
    for total, count in blocks:
        for _ in range(count):
            out.append(total / count + before)
            before += heights[len(out) - 1]
    return tuple(out)


def _column(
    judge: Judge, a: Arrangement, side: BoardSide, ends: _Ends, far: dict[int, float]
) -> tuple[Box, ...]:
    """Boards of a side, each as near as can be to the height of what it is wired to."""
    outers = a.left if side == "left" else a.right
    made: list[tuple[Board, tuple[Slot, ...], int]] = []
    wanted = []
    for outer in outers:
        board = judge.boards.boards[outer.board]
        pins = judge.outer(outer, side)
        slots = _slots(
            ends, ends.loose(pins) if board.any_order else pins, STEP * (_HEAD + 0.5), downward=True
        )
        pulls = [far[i] - y for slot in slots for i, y in slot.wires if i in far]
        wanted.append(fsum(pulls) / len(pulls) if pulls else 0.0)
        made.append((board, slots, _HEAD + _steps(pins) + 1))
    heights = [STEP * (steps + _GAP) for _, _, steps in made]
    boxes = []
    for (board, slots, steps), top in zip(made, stacked(wanted, heights), strict=True):
        box = Box(board, 0.0, STEP * steps, (), ())
        box = replace(box, right=slots) if side == "left" else replace(box, left=slots)
        boxes.append(_moved(box, round(top / STEP) * STEP))
    return tuple(boxes)


def _moved(box: Box, by: float) -> Box:
    def slots(found: tuple[Slot, ...]) -> tuple[Slot, ...]:
        return tuple(Slot(s.pin, s.y + by, tuple((i, y + by) for i, y in s.wires)) for s in found)

    return replace(
        box, top=box.top + by, bottom=box.bottom + by, left=slots(box.left), right=slots(box.right)
    )


def columns(boards: Boards) -> Columns:
    """Boards in three columns, the topmost just below 0."""
    judge = Judge(boards)
    a = arrange(boards)
    ends = _Ends(boards, Places(judge, a))
    middle, over = _middle(judge, a, ends)
    far = {
        i: y for box in middle for slot in (*box.left, *box.right) for i, y in slot.wires
    } | dict(over)
    left, right = (_column(judge, a, side, ends, far) for side in ("left", "right"))
    tops = [b.top for b in (*left, *middle, *right)] + [y for _, y in over]
    up = -(min(tops, default=0.0) // STEP - 1) * STEP
    moved = [tuple(_moved(b, up) for b in column) for column in (left, middle, right)]
    return Columns(moved[0], moved[1], moved[2], tuple((i, y + up) for i, y in over))
