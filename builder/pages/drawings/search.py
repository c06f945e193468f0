"""Finds an arrangement with few crossings: a first guess, then one change at a time while it helps.
Deterministic.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import lru_cache
from itertools import permutations, product
from math import fsum

from builder.pages.drawings.arrangement import Arrangement, Judge, Middle, Outer
from builder.pages.drawings.boards import Board, Boards, BoardSide
from builder.pages.drawings.ring import EDGES

# wires looked at for one drawing, all arrangements together; bounds the time of large builds
_WORK = 24000


def _cut(board: Board, style: int) -> tuple[int, int]:
    """Front and rear contacts that go left: half of both, or all of the front, or none of it."""
    front, rear = len(board.edges["front"]), len(board.edges["rear"]) + len(board.edges["loose"])
    return (front // 2, front, 0)[style], rear // 2


def _around(judge: Judge, middle: tuple[Middle, ...]) -> Arrangement:
    """Boards at the sides: each where most of its wires go, at the mean height of their ends."""
    boards = judge.boards
    lies: dict[int, tuple[BoardSide, int]] = {}
    height = 0
    for m in middle:
        left, right = judge.middle(m)
        lies.update({p.number: ("left", height + i) for i, p in enumerate(left)})
        lies.update({p.number: ("right", height + i) for i, p in enumerate(right)})
        height += max(len(left), len(right)) + 2
    owner = judge.owner
    pulls: dict[int, list[tuple[BoardSide, int]]] = {
        i: [] for i, b in enumerate(boards.boards) if not b.middle
    }
    for a, b in boards.ends:
        for here, there in ((a, b), (b, a)):
            if there in lies and owner[here] in pulls:
                pulls[owner[here]].append(lies[there])
    columns: dict[BoardSide, list[tuple[float, int]]] = {"left": [], "right": []}
    for i, found in pulls.items():
        lefts = sum(side == "left" for side, _ in found)
        pulled: BoardSide = "left" if lefts * 2 > len(found) else "right"
        side = boards.boards[i].side or pulled
        heights = [h for s, h in found if s == side] or [height]
        row = boards.boards[i].row
        astern = 0 if row is None else row - 1
        columns[side].append((fsum(heights) / len(heights) + astern * height, i))
    left_column, right_column = (
        tuple(Outer(i) for _, i in sorted(columns[s])) for s in ("left", "right")
    )
    return Arrangement(middle, left_column, right_column)


def _guesses(judge: Judge, most: int) -> Iterator[Arrangement]:
    middle = [i for i, b in enumerate(judge.boards.boards) if b.middle]
    orders = list(permutations(middle)) if len(middle) < 4 else [tuple(middle)]
    count = 0
    for order in orders:
        for styles in product(range(3), repeat=min(len(order), 2)):
            if count > most:
                return
            count += 1
            cuts = [
                _cut(judge.boards.boards[b], styles[i % len(styles)]) for i, b in enumerate(order)
            ]
            yield _around(judge, tuple(Middle(b, *cut) for b, cut in zip(order, cuts, strict=True)))


def _lies(judge: Judge, a: Arrangement, i: int) -> Iterator[Arrangement]:
    """One board of the middle cut otherwise, or moved up by one; boards at the sides stay, or
    follow.
    """
    m = a.middle[i]
    board = judge.boards.boards[m.board]
    fronts = len(board.edges["front"])
    rears = len(board.edges["rear"]) + len(board.edges["loose"])
    made = [replace(m, front=f) for f in range(fronts + 1)] + [
        replace(m, rear=r) for r in range(rears + 1)
    ]
    for new in made:
        middle = (*a.middle[:i], new, *a.middle[i + 1 :])
        yield replace(a, middle=middle)
        yield _around(judge, middle)
    if i:
        middle = (*a.middle[: i - 1], m, a.middle[i - 1], *a.middle[i + 1 :])
        yield replace(a, middle=middle)
        yield _around(judge, middle)


def _sites(judge: Judge, a: Arrangement, board: int) -> Iterator[Arrangement]:
    """One board of the sides at every place of both columns, and turned to each edge that has
    contacts.

    A motor whose corner is known stays at its side of the aircraft.
    """
    here = next(o for o in (*a.left, *a.right) if o.board == board)
    left, right = (tuple(o for o in column if o.board != board) for column in (a.left, a.right))
    side = judge.boards.boards[board].side
    for at in range(len(left) + 1) if side != "right" else ():
        yield replace(a, left=(*left[:at], here, *left[at:]), right=right)
    for at in range(len(right) + 1) if side != "left" else ():
        yield replace(a, left=left, right=(*right[:at], here, *right[at:]))
    edges = judge.boards.boards[board].edges
    used = [k for k, e in enumerate(EDGES) if edges[e]]
    for first in used if len(used) > 1 else ():
        new = Outer(board, first)
        left, right = (_with(column, board, new) for column in (a.left, a.right))
        yield replace(a, left=left, right=right)


def _with(column: tuple[Outer, ...], board: int, new: Outer) -> tuple[Outer, ...]:
    """A column with another placing of one board."""
    return tuple(new if o.board == board else o for o in column)


@dataclass(frozen=True)
class _Shape:
    """All that an arrangement depends on, so that builds whose boards are wired alike share one
    search.

    Of each board whether it stands in the middle, whether its leads lie in any order, where in the
    aircraft it has to stand, and the sockets along its edges; and which contacts the wires join.
    """

    layout: tuple[tuple[object, ...], ...]
    ends: tuple[tuple[int, int], ...]
    boards: Boards = field(compare=False)


def arrange(boards: Boards) -> Arrangement:
    """The best arrangement found in a bounded number of tries; the same boards give the same
    arrangement.
    """
    edges = (
        tuple(tuple(p.place.socket for p in b.edges[e]) for e in (*EDGES, "loose"))
        for b in boards.boards
    )
    layout = tuple(
        (b.middle, b.any_order, b.side, b.row, e) for b, e in zip(boards.boards, edges, strict=True)
    )
    return _arranged(_Shape(layout, boards.ends, boards))


@lru_cache(maxsize=64)
def _arranged(shape: _Shape) -> Arrangement:
    boards = shape.boards
    judge = Judge(boards)
    known: dict[Arrangement, float] = {}
    tries = _WORK // max(len(boards.ends), 1)

    def cost(a: Arrangement) -> float:
        if a not in known:
            known[a] = judge.cost(a)
        return known[a]

    found = min(_guesses(judge, tries // 4), key=cost)
    outer = [i for i, b in enumerate(boards.boards) if not b.middle]
    while True:
        before = cost(found)
        for i in range(len(found.middle)):
            if len(known) < tries:
                found = min((found, *_lies(judge, found, i)), key=cost)
        for board in outer:
            if len(known) < tries:
                found = min((found, *_sites(judge, found, board)), key=cost)
        if cost(found) > before - 1e-9:
            return found
