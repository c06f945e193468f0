"""More current than the current sensor can tell.

Checks: full throttle on each battery against the highest current that the measuring pad can tell. That is the
level of the pad over the sensitivity that its board names, else the one that is set. A board whose sensor
has no pad is not looked at.
Why: above it the sensor says the same number. The charge that is used is counted too low, and the pilot flies
the battery empty.
Example: 100 mV/A into a pad of 3.3 V ends at 33 A; full throttle takes 60 A.
Mend: take the sensitivity from the maker's page; a board whose sensor ends too early is watched by its volts.
Source: Ohm's law
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Figure
from builder.diagnostics.finding import Severity
from builder.diagnostics.where import Where
from builder.model.build import Build, FittedAs
from builder.model.kinds import CombinedBoard, SpeedController
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import made, say

SEVERITY = Severity.REMARK


def _measures(board: FittedAs[SpeedController]) -> bool:
    return any(p.role == "sense" for p in board.part.pads.values())


def _most_volts(build: Build, board: FittedAs[SpeedController]) -> float | None:
    """The highest volts of its measuring pads, and of what hears them; None where nobody says."""
    parts = [f.part for f in build.parts.values()]
    own = [p.level for p in board.part.pads.values() if p.role == "sense" and p.level is not None]
    hears = [p.tolerates for part in parts for p in part.pads.values() if p.role == "sense"]
    known = [v.value for v in (*own, *hears) if v is not None]
    return min(known) if own else None


def _sensitivity(build: Build, board: FittedAs[SpeedController]) -> tuple[float, Where] | None:
    own, told = board.part.current_sensitivity, build.source.setup.current_sensitivity
    if own is not None:
        return own.value, board.shelf_where.at("current_sensitivity")
    return (told.value, build.where("setup", "current_sensitivity")) if told is not None else None


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    for board in build.of_kind(SpeedController):
        scale = _sensitivity(build, board)
        inside = isinstance(board.part, CombinedBoard) and not _measures(board)
        if scale is None or inside:
            continue
        most = _most_volts(build, board)
        if most is None:
            yield NotJudged(f"level of the measuring pad of {board.key}", board.shelf_where)
            continue
        ends = most / scale[0]
        for name, pack in case.results.flight.packs.items():
            peak = pack.peak_current
            if not isinstance(peak, Figure):
                yield NotJudged("current at full throttle", board.where)
            elif peak.value <= ends:
                yield Judged()
            else:
                text = say(
                    "Full throttle on battery {} takes {}; the sensor of {} ends at {}.",
                    name,
                    peak,
                    board.key,
                    made(ends, "A"),
                )
                hint = "Correct the sensitivity, or land by the volts."
                yield Found(text, hint, scale[1], see=(build.packs[name].where,))
