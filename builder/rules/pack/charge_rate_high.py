"""A battery charged faster than it is made for.

Checks: the charge rate that the shelf names for the battery against what is usual at most for its
cells: 5C for lithium-polymer, 2C for lithium-ion.
Why: too much current plates lithium, and the battery swells or burns.
Example: 12 A for a lithium-ion battery of 4200 mAh: 2.9C.
Mend: set the charger to the battery's own rate; 1C where nobody says.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.load.assumed import assumed
from builder.model.build import FittedPack
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import made, rate, say

SEVERITY = Severity.REMARK
SIGNAL = Signal.WARNING
_USUAL = {"lithium-ion": assumed("battery/charge-rate-lithium-ion")}
_MOST = assumed("battery/charge-rate")
_ALIKE = assumed("battery/written-alike")
_LEAST = min(*_USUAL.values(), _MOST)  # what any cell takes


def _one(pack: FittedPack) -> Outcome:
    part = pack.part
    if part.charge is None or part.capacity is None:
        return NotJudged(f"charge rate of battery {pack.key}", pack.shelf_where)
    marked = part.charge.current(part.capacity.value)
    times, key = marked * 3600.0 / part.capacity.value, f"shelf/{pack.shelf}/charge"
    most = _USUAL.get(part.chemistry or "", _MOST)
    if part.chemistry is None and _LEAST * _ALIKE < times <= _MOST * _ALIKE:
        return NotJudged(f"chemistry of battery {pack.key}", pack.shelf_where)
    if times > most * _ALIKE:
        return Found(
            say(
                "Battery {} is to be charged at {}, {}; {} is usual at most for its cells.",
                pack.key,
                made(marked, "A", key),
                rate(times, key),
                rate(most, written=True),
            ),
            "Check the figure on the battery, and charge at 1C.",
            pack.shelf_where.at("charge"),
        )
    return Judged()


def check(case: Case) -> Iterator[Outcome]:
    for pack in case.build.packs.values():
        yield _one(pack)
