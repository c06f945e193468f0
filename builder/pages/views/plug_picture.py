"""A picture for a step that plugs: the board with the contacts of its socket lit, and at each of them
the contact of the other plug that it meets.
"""

from builder.compute.joints.bench_pieces import is_centre, plug_name
from builder.compute.order.steps.mounting_steps import plug_end
from builder.compute.order.steps.work_step import StepGroup
from builder.frozen import value_class
from builder.model.build import Contact, PlugJoin, piece_name
from builder.pages.drawing import Item, Line, Words
from builder.pages.sheet_input import SheetInput
from builder.pages.views.board_view import TYPE, BoardView, words_inward

_BESIDE = 1.8  # mm from a contact to the words at it
_ROW = 4.3  # mm


@value_class(frozen=True, eq=False)
class Plugged:
    """Which contact of a board meets which; the words below say of which sockets."""

    board: str
    side: str
    pairs: tuple[tuple[str, Contact], ...]
    words: tuple[str, ...]


def _end(plug: PlugJoin, sheet: SheetInput) -> tuple[tuple[str, int, str], tuple[str, int, str]]:
    """The end that is drawn, on a board of the middle where there is one, and the other."""
    first, other = plug.start, plug.end
    return (first, other) if is_centre(sheet.build, first[0]) else (other, first)


def _pairs(plug: PlugJoin, board: str, sheet: SheetInput) -> list[tuple[str, Contact]]:
    out = []
    for join in sheet.results.netlist.joins:
        if join.by != "plug" or join.where != plug.where:
            continue
        own, far = (join.a, join.b) if join.a.board == board else (join.b, join.a)
        if own.board == board:
            out.append((own.pad, far))
    return out


def plugged_of(sheet: SheetInput, group: StepGroup) -> Plugged | None:
    """What a step plugs; None for all else, and where its plugs are on several boards."""
    names = {s.id.removeprefix("plug ") for s in group.steps if s.id.startswith("plug ")}
    plugs = [p for p in sheet.build.plugs if plug_name(p) in names]
    drawn = [_end(p, sheet) for p in plugs]
    boards = {(own[0], own[1]) for own, _ in drawn}
    if len(boards) != 1:
        return None
    (key, piece), part = next(iter(boards)), sheet.build.parts[drawn[0][0][0]].part
    board = piece_name(key, piece)
    sides = {part.sockets[own[2]].side for own, _ in drawn if own[2] in part.sockets}
    pairs = [pair for plug in plugs for pair in _pairs(plug, board, sheet)]
    if len(sides) != 1 or not pairs:
        return None
    words = tuple(f"{plug_end(*own)} to {plug_end(*other)}" for own, other in drawn)
    return Plugged(board, next(iter(sides)), tuple(pairs), words)


def plug_items(view: BoardView, found: Plugged) -> tuple[list[Item], float]:
    """What is drawn on top of the board, and how far down it reaches."""
    places = [(view.pads[pad], far) for pad, far in found.pairs]
    items: list[Item] = [Line(((at.x, at.y), (at.x, at.y)), "dot lit") for at, _ in places]
    alone = len({far.board for _, far in places}) == 1
    items += [words_inward(at, _BESIDE, far.pad if alone else str(far)) for at, far in places]
    y = view.bottom
    for said in found.words if alone else ():
        y += _ROW
        items.append(Words(1.0, y, said, TYPE))
    return items, y + 1.5
