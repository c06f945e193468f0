"""Reads a finished drawing back as wires, boards and words, so that tests need not trust how it was
made.
"""

from collections.abc import Iterable, Iterator
from itertools import combinations, pairwise

from builder.pages.drawing import Circle, Drawing, Line, Rectangle, Words

Point = tuple[float, float]
Piece = tuple[Point, Point]


def wires(drawing: Drawing) -> list[Line]:
    """The wires: lines that say in their title from where to where they go."""
    return [i for i in drawing.items if isinstance(i, Line) and " to " in i.title]


def boards(drawing: Drawing) -> list[Rectangle]:
    """The boards."""
    return [i for i in drawing.items if isinstance(i, Rectangle)]


def dots(drawing: Drawing) -> list[Circle]:
    """Contacts."""
    return [i for i in drawing.items if isinstance(i, Circle)]


def words(drawing: Drawing) -> list[Words]:
    """All words."""
    return [i for i in drawing.items if isinstance(i, Words)]


def pieces(line: Line) -> list[Piece]:
    """The straight pieces of a line."""
    return list(pairwise(line.points))


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def cross(one: Piece, other: Piece) -> bool:
    """Whether two pieces cross in a point inside both (sign of the area of triangles, any textbook
    of geometry).
    """
    (a, b), (c, d) = one, other
    return _turn(a, b, c) * _turn(a, b, d) < -1e-9 and _turn(c, d, a) * _turn(c, d, b) < -1e-9


def count_crossings(drawing: Drawing) -> int:
    """Crossings of different wires, each pair of pieces looked at by itself."""
    return sum(
        cross(p, q)
        for one, other in combinations(wires(drawing), 2)
        for p in pieces(one)
        for q in pieces(other)
    )


def on_one_line(one: Piece, other: Piece) -> bool:
    """Whether two level or upright pieces run along each other."""
    for axis in (0, 1):
        if one[0][axis] == one[1][axis] == other[0][axis] == other[1][axis]:
            along = 1 - axis
            first, second = (
                sorted((one[0][along], one[1][along])),
                sorted((other[0][along], other[1][along])),
            )
            return min(first[1], second[1]) - max(first[0], second[0]) > 1e-9
    return False


def along_each_other(drawing: Drawing) -> Iterator[tuple[str, str]]:
    """Pairs of wires that hide each other."""
    for one, other in combinations(wires(drawing), 2):
        if any(on_one_line(p, q) for p in pieces(one) for q in pieces(other)):
            yield one.title, other.title


def enters(piece: Piece, board: Rectangle) -> bool:
    """Whether a level or upright piece runs inside a board; its rim does not count."""
    (x0, x1), (y0, y1) = (sorted((piece[0][i], piece[1][i])) for i in (0, 1))
    if y0 == y1:
        return (
            board.y < y0 < board.y + board.height
            and min(x1, board.x + board.width) - max(x0, board.x) > 1e-9
        )
    return (
        board.x < x0 < board.x + board.width
        and min(y1, board.y + board.height) - max(y0, board.y) > 1e-9
    )


def through_boards(drawing: Drawing) -> Iterator[tuple[str, str]]:
    """Wires that run inside a board."""
    for wire in wires(drawing):
        for board in boards(drawing):
            if any(enters(p, board) for p in pieces(wire)):
                yield wire.title, board.title


def overlapping(
    boxes: Iterable[tuple[str, float, float, float, float]], least: float = 0.0
) -> list[tuple[str, str]]:
    """Pairs of boxes (name, left, top, right, bottom) that overlap by more than `least` both ways."""
    return [
        (a[0], b[0])
        for a, b in combinations(boxes, 2)
        if min(a[3], b[3]) - max(a[1], b[1]) > least and min(a[4], b[4]) - max(a[2], b[2]) > least
    ]
