"""More current than the motor is made for.

Checks: one motor's current at full throttle, solved with the battery's sag, against the largest that
its maker allows with this propeller and these cells.
Why: the winding's varnish burns, and the magnets lose strength.
Example: 14 A through a motor for 10 A.
Mend: a smaller propeller, fewer cells, or full throttle held back in the settings.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Figure
from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.model.kinds import Motor
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.REMARK
_ROOM = assumed("supply/motor-current-room")


def check(case: Case) -> Iterator[Outcome]:
    flown = case.results.flight
    for fitted in case.build.of_kind(Motor):
        peak = fitted.part.peak
        if peak is None:
            yield NotJudged(f"largest current of {fitted.key}", fitted.shelf_where)
            continue
        for key, found in flown.packs.items():
            where = case.build.packs[key].where
            if not isinstance(found.peak_current, Figure) or not flown.drive.rotors:
                yield NotJudged(
                    "a bench table of this motor with this propeller",
                    where,
                )
                continue
            each = found.peak_current.value / flown.drive.rotors
            if each > _ROOM * peak.current.value:
                marked = f"shelf/{fitted.shelf}/peak"
                time = (
                    say(" for {}", given(peak.for_.value, "s", marked))
                    if peak.for_ is not None
                    else ""
                )
                yield Found(
                    say(
                        "Full throttle on battery {} takes {} a motor; {} is made for {}{}.",
                        key,
                        made(each, "A", found.peak_current.key),
                        fitted.shelf,
                        given(peak.current.value, "A", marked),
                        time,
                    ),
                    "Take a smaller propeller or fewer cells, or hold full throttle back.",
                    where,
                )
            else:
                yield Judged()
