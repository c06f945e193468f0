"""An arrangement of boards in three columns, and how many wires must cross in it."""

from dataclasses import dataclass
from functools import cached_property
from itertools import combinations

from builder.pages.drawings.boards import Board, Boards, BoardSide, Pin
from builder.pages.drawings.lanes import chord_crossings
from builder.pages.drawings.ring import EDGES

_OVER = 1.5  # a wire from one side of the middle to the other weighs as much as this many crossings
_SPLIT = 0.4  # a socket that is drawn in two halves
_ASTERN = 500.0  # a motor of the rear above one of the front: no number of crossings is worth it
_TALL = 0.02  # a row that one column is taller than the other


@dataclass(frozen=True, slots=True)
class Middle:
    """A board of the middle: which, and how much of its front and rear goes left. It is drawn as it
    is mounted.
    """

    board: int
    front: int
    rear: int


@dataclass(frozen=True, slots=True)
class Outer:
    """A board at a side: which, and the edge that comes first when its contacts are read clockwise."""

    board: int
    first: int = 0


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Boards of the middle and of both sides, from top to bottom."""

    middle: tuple[Middle, ...]
    left: tuple[Outer, ...]
    right: tuple[Outer, ...]


def middle_sides(board: Board, lies: Middle) -> tuple[tuple[Pin, ...], tuple[Pin, ...]]:
    """Pins on the left and on the right of a board in the middle, from top to bottom, in the order
    around the board.
    """
    front, rear = board.edges["front"], board.edges["rear"] + board.edges["loose"]
    left = front[: lies.front][::-1] + board.edges["left"] + rear[: lies.rear]
    right = front[lies.front :] + board.edges["right"] + rear[lies.rear :][::-1]
    return left, right


def outer_pins(board: Board, lies: Outer, side: BoardSide) -> tuple[Pin, ...]:
    """Pins of a board at a side from top to bottom, its contacts turned toward the middle, never
    mirrored.
    """
    edges = [board.edges[e] if e in ("front", "right") else board.edges[e][::-1] for e in EDGES]
    clockwise = (
        tuple(p for edge in edges[lies.first :] + edges[: lies.first] for p in edge)
        + board.edges["loose"]
    )
    return clockwise if side == "left" else clockwise[::-1]


@dataclass(frozen=True)
class Judge:
    """Costs of arrangements of one build's boards. Pins of each board and lie are kept, for they
    are asked often.
    """

    boards: Boards

    @cached_property
    def _kept(self) -> dict[object, tuple[tuple[Pin, ...], ...]]:
        return {}

    @cached_property
    def owner(self) -> dict[int, int]:
        """The board of each pin."""
        return {p.number: i for i, b in enumerate(self.boards.boards) for p in b.pins}

    @cached_property
    def _rows(self) -> tuple[int, ...]:
        return tuple(len(b.pins) + 2 for b in self.boards.boards)

    def middle(self, lies: Middle) -> tuple[tuple[Pin, ...], ...]:
        """Left and right pins of a board in the middle."""
        if lies not in self._kept:
            self._kept[lies] = middle_sides(self.boards.boards[lies.board], lies)
        return self._kept[lies]

    def outer(self, lies: Outer, side: BoardSide) -> tuple[Pin, ...]:
        """Pins of a board at a side."""
        key = (lies, side)
        if key not in self._kept:
            self._kept[key] = (outer_pins(self.boards.boards[lies.board], lies, side),)
        return self._kept[key][0]

    def cost(self, a: Arrangement) -> float:
        """Wires that must cross, with small amends for what makes a drawing hard to read."""
        places = Places(self, a)
        chords, over = places.chords()
        split = sum(self._split(m) for m in a.middle)
        rows = [sum(self._rows[o.board] for o in column) for column in (a.left, a.right)]
        crossings = sum(chord_crossings(c) for c in chords)
        astern = sum(self._astern(column) for column in (a.left, a.right))
        uneven = abs(rows[0] - rows[1])
        return crossings + _OVER * over + _SPLIT * split + _ASTERN * astern + _TALL * uneven

    def _astern(self, column: tuple[Outer, ...]) -> int:
        """Pairs of motors of which the one farther aft stands higher."""
        rows = [row for o in column if (row := self.boards.boards[o.board].row) is not None]
        return sum(first > then for first, then in combinations(rows, 2))

    def _split(self, lies: Middle) -> int:
        board = self.boards.boards[lies.board]
        cut = (
            (board.edges["front"], lies.front),
            (board.edges["rear"] + board.edges["loose"], lies.rear),
        )
        return sum(
            0 < at < len(pins) and pins[at].place.socket == pins[at - 1].place.socket != ""
            for pins, at in cut
        )


class Places:
    """Where each pin lies on the rim of its channel, and by which gap a wire passes the middle."""

    def __init__(self, judge: Judge, a: Arrangement) -> None:
        count = len(judge.boards.pins)
        self.ends = judge.boards.ends
        self.rim = [0] * count
        self.on_left = [False] * count
        self.level = [-1] * count  # the board of the middle, from the top; -1 at the sides
        self.gap = [0] * count  # the gap next to a pin of the middle: 0 lies above all boards
        self.gaps: tuple[list[int], list[int]] = ([], [])
        self.length = [0, 0]
        self.room = len(self.ends)  # places that each gap has on the rim
        for side in (0, 1):
            self._walk(judge, a, side)

    def _walk(self, judge: Judge, a: Arrangement, side: int) -> None:
        """Once around a channel: the outer column downward, then the middle upward."""
        rim, on_left, at = self.rim, self.on_left, 0
        name: BoardSide = "right" if side else "left"
        for outer in a.right if side else a.left:
            step = 0 if judge.boards.boards[outer.board].any_order else 1
            for pin in judge.outer(outer, name):
                rim[pin.number] = at
                on_left[pin.number] = not side
                at += step
            at += 1
        gaps = [at]
        at += self.room
        for level in range(len(a.middle) - 1, -1, -1):
            pins = judge.middle(a.middle[level])[side]
            half = len(pins) / 2
            for i in range(len(pins) - 1, -1, -1):
                at += 1
                number = pins[i].number
                rim[number], on_left[number], self.level[number] = at, not side, level
                self.gap[number] = level if i < half else level + 1
            gaps.append(at + 1)
            at += 1 + self.room
        self.gaps[side].extend(reversed(gaps))
        self.length[side] = at

    def passes(self, a: int, b: int) -> int:
        """The gap of the middle by which a wire from one side to the other goes."""
        la, lb = self.level[a], self.level[b]
        if la >= 0 and lb >= 0 and la != lb:
            return min(la, lb) + 1
        if la >= 0 or lb >= 0:
            return self.gap[a if la >= 0 else b]
        return 0

    def over(self) -> tuple[tuple[int, ...], ...]:
        """For each gap the wires that pass it, from below to above, so that none cross left of it."""
        passing: list[list[tuple[int, int]]] = [[] for _ in self.gaps[0]]
        for i, (a, b) in enumerate(self.ends):
            if self.on_left[a] != self.on_left[b]:
                gap = self.passes(a, b)
                away = (self.rim[a if self.on_left[a] else b] - self.gaps[0][gap]) % self.length[0]
                passing[gap].append((-away, i))
        return tuple(tuple(i for _, i in sorted(found)) for found in passing)

    def chords(self) -> tuple[tuple[list[tuple[int, int]], list[tuple[int, int]]], int]:
        """Chords of the left and right channel, and how many wires go over from one to the other."""
        found: tuple[list[tuple[int, int]], list[tuple[int, int]]] = ([], [])
        rim, on_left = self.rim, self.on_left
        for a, b in self.ends:
            if on_left[a] == on_left[b]:
                low, high = sorted((rim[a], rim[b]))
                channel = 0 if on_left[a] else 1
                found[channel].append((low, high))
        passing = self.over()
        for gap, wires in enumerate(passing):
            for slot, i in enumerate(wires):
                for end in self.ends[i]:
                    side = 0 if on_left[end] else 1
                    p, q = rim[end], self.gaps[side][gap] + slot
                    found[side].append((p, q) if p < q else (q, p))
        return found, sum(map(len, passing))
