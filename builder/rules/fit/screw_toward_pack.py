"""A screw that ends toward the battery.

Checks: screws that do not end inside their thread, and whose end points at the battery or its bay
(`behind: pack`). Where a screw stands out and `behind` is missing, or is in other words, it could
not be checked.
Why: a screw's end that is driven into a lithium cell in a landing starts a fire that cannot be put
out.
Example: stack screws from above, their ends standing out of the nuts over the battery.
Mend: turn them round, so that the heads face the battery, or take shorter ones and cap the nuts.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Unknown
from builder.compute.geometry.screws import ScrewRow
from builder.diagnostics.finding import Severity, Signal
from builder.load.assumed import assumed
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import made, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.DANGER
_NUT = assumed("mounting/nut-height")

# Words of the source, as they are read.
_READ = {"pack": "battery", "pack bay": "battery bay"}


def _stands_out(row: ScrewRow, length: float, passed: float) -> float:
    """How far the end comes out of its thread, in m; the whole of it where the thread's depth is
    not known.
    """
    out = length - passed
    if not row.open_behind:
        return out if isinstance(row.depth, Unknown) or not row.into else out - row.depth.value
    if (
        isinstance(row.grip_diameters, Unknown)
        or isinstance(row.grip, Unknown)
        or not row.grip_diameters.value
    ):
        return out
    return out - _NUT * row.grip.value / row.grip_diameters.value


def _one(row: ScrewRow) -> Iterator[Outcome]:
    if row.toward_pack is False:
        yield Judged()
        return
    lacking = [m for f in (row.length, row.passed) if isinstance(f, Unknown) for m in f.missing]
    if isinstance(row.length, Unknown) or isinstance(row.passed, Unknown):
        yield from (NotJudged(m, row.where) for m in lacking)
        return
    out = _stands_out(row, row.length.value, row.passed.value)
    if out <= 0.0:
        yield Judged()
    elif row.toward_pack is None:
        lies = f"whether {row.behind} lies" if row.behind else "what lies"
        yield NotJudged(
            f"{lies} behind the screws at {row.place}: battery, board, wire, nothing or a part",
            row.where,
        )
    else:
        yield Found(
            say(
                "{} at {} stands out by {} toward {}.",
                row.name,
                row.place,
                made(out, "m", row.length.key),
                _READ.get(row.behind or "", row.behind),
            ),
            "Turn it round so that its head faces the battery, or take a shorter one.",
            row.where,
        )


def check(case: Case) -> Iterator[Outcome]:
    for row in case.results.screws:
        yield from _one(row)
