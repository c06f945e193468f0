"""Finds an arrangement with few crossings: a first guess, then one change at a time while it helps. Deterministic."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import permutations, product

from builder.pages.drawings.arrangement import Arrangement, Judge, Middle, Outer, Side, swapped
from builder.pages.drawings.boards import Board, Boards
from builder.pages.drawings.ring import EDGES

_TRIES = 700  # arrangements looked at for one drawing; bounds the time of large builds
_GUESSES = 48  # orders and turns of the middle boards that are tried at the start


def _cut(board: Board, style: int) -> tuple[int, int]:
    """Front and rear contacts that go left: half of both, or all of the front, or none of it."""
    front, rear = len(board.edges["front"]), len(board.edges["rear"]) + len(board.edges["loose"])
    return (front // 2, front, 0)[style], rear // 2


def _style(style: int, turned: bool) -> int:
    """The same side of the picture for boards that are turned and boards that are not."""
    return 3 - style if turned and style else style


def _around(judge: Judge, middle: tuple[Middle, ...]) -> Arrangement:
    """Boards at the sides: each where most of its wires go, at the mean height of their ends."""
    boards = judge.boards
    lies: dict[int, tuple[Side, int]] = {}
    height = 0
    for m in middle:
        left, right = judge.middle(m)
        lies.update({p.number: ("left", height + i) for i, p in enumerate(left)})
        lies.update({p.number: ("right", height + i) for i, p in enumerate(right)})
        height += max(len(left), len(right)) + 2
    owner = {p.number: i for i, b in enumerate(boards.boards) for p in b.pins}
    pulls: dict[int, list[tuple[Side, int]]] = {i: [] for i, b in enumerate(boards.boards) if not b.middle}
    for a, b in boards.ends:
        for here, there in ((a, b), (b, a)):
            if there in lies and owner[here] in pulls:
                pulls[owner[here]].append(lies[there])
    columns: dict[Side, list[tuple[float, int]]] = {"left": [], "right": []}
    for i, found in pulls.items():
        lefts = sum(side == "left" for side, _ in found)
        side: Side = "left" if lefts * 2 > len(found) else "right"
        heights = [h for s, h in found if s == side] or [height]
        columns[side].append((sum(heights) / len(heights), i))
    left_column, right_column = (tuple(Outer(i) for _, i in sorted(columns[s])) for s in ("left", "right"))
    return Arrangement(middle, left_column, right_column)


def _guesses(judge: Judge) -> Iterator[Arrangement]:
    middle = [i for i, b in enumerate(judge.boards.boards) if b.middle]
    orders = list(permutations(middle)) if len(middle) < 4 else [tuple(middle)]
    count = 0
    for order in orders:
        for turns in product((False, True), repeat=len(order)):
            for style in range(3):
                if count == _GUESSES:
                    return
                count += 1
                pairs = zip(order, turns, strict=True)
                lies = tuple(Middle(b, t, *_cut(judge.boards.boards[b], _style(style, t))) for b, t in pairs)
                yield _around(judge, lies)


def _middle_changes(judge: Judge, a: Arrangement) -> Iterator[tuple[Middle, ...]]:
    for i, m in enumerate(a.middle):
        board = judge.boards.boards[m.board]
        fronts = len(board.edges["front"])
        rears = len(board.edges["rear"]) + len(board.edges["loose"])
        made = [replace(m, front=f) for f in range(fronts + 1)] + [replace(m, rear=r) for r in range(rears + 1)]
        for new in (replace(m, turned=not m.turned), *made):
            if new != m:
                yield (*a.middle[:i], new, *a.middle[i + 1 :])
    for i in range(len(a.middle) - 1):
        yield (*a.middle[:i], a.middle[i + 1], a.middle[i], *a.middle[i + 2 :])


def _outer_changes(judge: Judge, a: Arrangement) -> Iterator[Arrangement]:
    for left in swapped(a.left):
        yield replace(a, left=left)
    for right in swapped(a.right):
        yield replace(a, right=right)
    for here, there in ((a.left, a.right), (a.right, a.left)):
        for i, outer in enumerate(here):
            rest = here[:i] + here[i + 1 :]
            for column, other in ((there, rest), (rest, there)):
                for at in range(len(column) + 1):
                    new = (*column[:at], outer, *column[at:])
                    moved_over = column is there
                    to_left = (here is a.left) != moved_over
                    yield replace(a, left=new, right=other) if to_left else replace(a, left=other, right=new)
    for name, column in (("left", a.left), ("right", a.right)):
        for i, outer in enumerate(column):
            edges = judge.boards.boards[outer.board].edges
            used = [k for k, e in enumerate(EDGES) if edges[e]]
            for first in used if len(used) > 1 else ():
                turned = (*column[:i], Outer(outer.board, first), *column[i + 1 :])
                yield replace(a, left=turned) if name == "left" else replace(a, right=turned)


def _changes(judge: Judge, a: Arrangement) -> Iterator[Arrangement]:
    for middle in _middle_changes(judge, a):
        yield replace(a, middle=middle)
        yield _around(judge, middle)
    yield from _outer_changes(judge, a)


def arrange(boards: Boards) -> Arrangement:
    """The best arrangement found in a bounded number of tries; the same boards give the same arrangement."""
    judge = Judge(boards)
    tried = [(judge.cost(a), i, a) for i, a in enumerate(_guesses(judge))]
    best, _, found = min(tried, key=lambda t: t[:2])
    left = _TRIES - len(tried)
    better = True
    while better and left > 0:
        better = False
        for change in _changes(judge, found):
            left -= 1
            cost = judge.cost(change)
            if cost < best - 1e-9:
                best, found, better = cost, change, True
                break
            if left <= 0:
                break
    return found
