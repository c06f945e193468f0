"""More current than the speed controller gives.

Checks: one motor's current at full throttle, solved with the battery's sag, against burst and
continuous of a channel.
Why: a channel that burns takes its motor and the aircraft with it.
Example: 40 A for a channel of 25 A with a burst of 35 A.
Mend: a larger speed controller, a smaller propeller, or fewer cells.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Figure
from builder.diagnostics.finding import Severity
from builder.model.kinds import SpeedController
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT


def check(case: Case) -> Iterator[Outcome]:
    rotors = case.results.flight.drive.rotors
    for fitted in case.build.of_kind(SpeedController):
        part = fitted.part
        continuous = part.continuous.value if part.continuous else None
        burst = part.burst.current if part.burst else continuous
        if continuous is None or burst is None:
            yield NotJudged(f"continuous and burst current of {fitted.key}", fitted.shelf_where)
            continue
        for pack, found in case.results.flight.packs.items():
            if not isinstance(found.peak_current, Figure) or not rotors:
                yield NotJudged(
                    "a bench table of this motor with this propeller",
                    fitted.where,
                )
                continue
            each = found.peak_current.value / rotors
            takes = made(each, "A", found.peak_current.key)
            where = case.build.packs[pack].where
            if each > burst:
                yield Found(
                    say(
                        "Full throttle on battery {} takes {} a motor; {} gives {} in a burst.",
                        pack,
                        takes,
                        fitted.key,
                        given(
                            burst,
                            "A",
                            f"shelf/{fitted.shelf}/{'burst' if part.burst else 'continuous'}",
                        ),
                    ),
                    "Take a larger speed controller, a smaller propeller, or fewer cells.",
                    where,
                )
            elif each > continuous:
                yield Found(
                    say(
                        "Full throttle on battery {} takes {} a motor, above the {} that {} gives for"
                        " long.",
                        pack,
                        takes,
                        given(continuous, "A", f"shelf/{fitted.shelf}/continuous"),
                        fitted.key,
                    ),
                    "Keep full throttle short.",
                    where,
                    severity=Severity.REMARK,
                )
            else:
                yield Judged()
