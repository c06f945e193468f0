"""Software that is set for another board.

Checks: what the software calls the board, and the name of the software. Setup and shelf are
compared where both say it.
Why: software of another board drives other pads, and can turn a motor as soon as it starts.
Example: the setup names 'osier', and the board on the shelf 'hexwater'.
Mend: load the software of this board, and write the same in both places.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.model.kinds import CombinedBoard, FlightController
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, Outcome

SEVERITY = Severity.FAULT


def _plain(text: str) -> str:
    return " ".join(text.casefold().split())


def check(case: Case) -> Iterator[Outcome]:
    setup = case.build.source.setup
    for board in case.build.of_kind(FlightController, CombinedBoard):
        part = board.part
        named = part.software_for if isinstance(part, FlightController | CombinedBoard) else None
        mine, told = named, setup.software_for
        if mine is None or told is None:
            continue
        if _plain(mine) in _plain(told) or _plain(told) in _plain(mine):
            yield Judged()
            continue
        text = f"The software is set for {told!r}; {board.key} is {mine!r}."
        where, there = case.build.where("setup", "software_for"), board.shelf_where
        yield clash(text, "Load the software of this board.", where, there.at("software_for"))
