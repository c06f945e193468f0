"""A flight of the log that took all that its battery holds.

Checks: the charge that each flight used against what its battery holds as printed: 105 % of it or
more.
Why: a battery that is flown empty swells, loses capacity and may burn when it is charged. Or the
log has a slip, and the times learn from it.
Example: 900 mAh used of a battery of 850 mAh.
Mend: correct the slip; a battery that was flown so, retire.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.load.assumed import assumed
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.REMARK
SIGNAL = Signal.WARNING
_HINT = "Correct the slip. If it is none, retire the battery, and land sooner."
_MORE = assumed("battery/used-over-printed")


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    for i, flight in enumerate(build.source.flights):
        pack = build.packs.get(flight.pack)
        if flight.used is None or pack is None:
            continue
        at, holds = build.where("flights", i, "used"), pack.capacity
        if holds is None:
            yield NotJudged(f"capacity of battery {flight.pack}", pack.shelf_where)
            continue
        if flight.used.value < _MORE * holds:
            yield Judged()
            continue
        used, most = given(flight.used.value, "C"), made(holds, "C")
        text = say("A flight used {} of battery {}, which holds {}.", used, pack.key, most)
        yield clash(text, _HINT, at, pack.shelf_where.at("capacity"))
