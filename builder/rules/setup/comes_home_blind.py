"""A fail-safe that comes home, on an aircraft that cannot know where it is.

Checks: where the fail-safe comes home, that a satellite receiver is fitted and that its positions
reach the control board.
Why: without positions the software does something else when the link is lost; the aircraft drifts
off or falls where nobody expects it.
Example: the fail-safe comes home, and no satellite receiver is aboard.
Mend: fit and wire a satellite receiver, or let the motors stop or the aircraft land.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.circuit.print_pads import by_print, doubt_words
from builder.diagnostics.finding import Severity, Signal
from builder.model.build import Build, Contact
from builder.model.kinds import CombinedBoard, FlightController, SatelliteReceiver
from builder.rules.compare import clash
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.DANGER
_HINT = "Wire a satellite receiver, or let it land or stop its motors; test it without propellers."


def _ways_to_a_board(case: Case, key: str) -> list[tuple[Contact, Contact]]:
    """The sending contacts of a part with the contacts of a control board that they are joined to."""
    build, nets = case.build, case.results.netlist
    boards = {f.key for f in build.of_kind(FlightController, CombinedBoard)}
    sends = [c for c in build.contacts if c.part == key and build.pad(c).role == "sends"]
    return [(c, far) for c in sends for far in nets.of[c].contacts if far.part in boards]


def _in_doubt(build: Build, ways: list[tuple[Contact, Contact]]) -> tuple[Contact, ...]:
    """The contacts known by their print only, where no way does without one."""
    doubt = [[c for c in way if by_print(build.pad(c))] for way in ways]
    return tuple(c for found in doubt for c in found) if all(doubt) else ()


def _sends(build: Build, key: str) -> bool:
    return any(pad.role == "sends" for pad in build.parts[key].part.pads.values())


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    stated = build.source.setup.fail_safe
    if stated is None or stated.does != "comes home":
        return
    where = build.where("setup", "fail_safe", "does")
    aboard = list(build.of_kind(SatelliteReceiver))
    if not aboard:
        text = "The fail-safe comes home, and no satellite receiver is aboard."
        yield Found(text, _HINT, where)
    for one in aboard:
        if not _sends(build, one.key):
            yield NotJudged(f"which pad of {one.key} sends", one.shelf_where)
        elif ways := _ways_to_a_board(case, one.key):
            doubt = _in_doubt(build, ways)
            yield NotJudged(doubt_words(doubt), one.shelf_where) if doubt else Judged()
        else:
            text = f"The fail-safe comes home, and no position of {one.key} reaches the board."
            yield clash(text, _HINT, where, one.where)
