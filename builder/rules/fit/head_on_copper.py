"""A metal head or nut that reaches past the bare ring of a board's hole.

Checks: heads of screws, nuts, washers, spacers and posts that lie on a board by the screw list. What is of metal or
carbon stays within what is free of copper around the hole. A screw may sit 0.2 mm beside the middle of its hole. What is
of plastic or rubber may lie anywhere.
Why: a nut that touches a pad joins it to the frame, and with battery volts on that pad it burns.
Example: a steel nut of 6.4 mm on a board that has 6 mm free around its holes.
Mend: take a nut of nylon, a washer that insulates, or a smaller head.
Source: ISO 273, medium: 2.4 mm for M2, 3.4 mm for M3 (from memory); that metal and carbon conduct
"""

from collections.abc import Iterator

from builder.compute.geometry.on_boards import OnBoard, ScrewedBoard, on_boards
from builder.diagnostics.finding import Severity, Signal
from builder.load.assumed import assumed
from builder.model.kinds import Hardware
from builder.rules.compare import EXACT, clash
from builder.rules.rule import Case, Judged, NotJudged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_PLAY = assumed("mounting/hole-play")
_INSULATES = ("nylon", "plastic", "silicone", "rubber", "polyolefin", "wood")


def _across(on: OnBoard, piece: Hardware, board: ScrewedBoard) -> Outcome:
    """A piece of metal against what is free of copper around the hole."""
    wide, free = piece.head_diameter, board.part.hole_free
    if wide is None:
        return NotJudged(f"how wide {on.name} is: head_diameter", on.shelf_where)
    if free is None:
        return NotJudged(
            f"what is free of copper around the holes of {board.key}", board.shelf_where
        )
    if wide.value + 2 * _PLAY <= free.value + EXACT:
        return Judged()
    text = say(
        "{} is {} wide and lies on {}. Around its holes {} are free of bare copper, and a screw may sit {} off.",
        on.name[0].upper() + on.name[1:],
        given(wide.value, "m"),
        board.key,
        given(free.value, "m"),
        given(_PLAY, "m"),
    )
    hint = "Take a nut of nylon, a washer that insulates, or a smaller head."
    return clash(text, hint, on.where, board.shelf_where.at("hole_free"))


def _judged(on: OnBoard) -> Outcome:
    if on.piece is None:
        return NotJudged(f"which part is the {on.name} on the {on.layer}", on.where)
    material = on.piece.material
    if material is None:
        return NotJudged(f"material of {on.name}", on.shelf_where)
    if material in _INSULATES:
        return Judged()
    if material.startswith("other:"):
        return NotJudged(f"whether {on.name} conducts", on.shelf_where.at("material"))
    if on.board is None:
        return NotJudged(f"which board is the {on.layer}", on.where)
    return _across(on, on.piece, on.board)


def check(case: Case) -> Iterator[Outcome]:
    seen = set()
    for on in on_boards(case.build):
        board = on.board.key if on.board is not None else on.layer
        if (on.name, board, on.where) in seen:
            continue  # the same nut on both faces of one board
        seen.add((on.name, board, on.where))
        yield _judged(on)
