"""A propeller's bore that does not fit the shaft.

Checks: bore against shaft. Too narrow by more than 0.05 mm is a fault. Too wide by more than 0.2
mm is a fault where the propeller is pressed on, and a remark where a nut or screws hold it.
Why: a tight hub splits; a loose one runs out of true and shakes the aircraft, or slips.
Example: a bore of 1.5 mm on a shaft of 5 mm.
Mend: take propellers of the shaft's size, or a ring that fills the gap.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.load.assumed import assumed_list
from builder.rules.fit._airframe import motor_propeller_pairs
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_TIGHT, _LOOSE = assumed_list("mounting/bore")


def check(case: Case) -> Iterator[Outcome]:
    for fitted, motor, other, propeller in motor_propeller_pairs(case.build):
        if motor.shaft is None or propeller.bore is None:
            missing, at = (
                (f"shaft of {fitted.key}", fitted)
                if motor.shaft is None
                else (f"bore of {other.key}", other)
            )
            yield NotJudged(missing, at.shelf_where)
            continue
        gap = propeller.bore.value - motor.shaft.value
        text = say(
            "{} has a bore of {}, and the shaft of {} is {}.",
            other.key,
            given(propeller.bore.value, "m", f"shelf/{other.shelf}/bore"),
            fitted.key,
            given(motor.shaft.value, "m", f"shelf/{fitted.shelf}/shaft"),
        )
        pressed = propeller.mount is not None and propeller.mount.style == "press"
        if gap < -_TIGHT or (gap > _LOOSE and pressed):
            yield Found(
                text, "Take propellers of the shaft's size.", other.where, see=(fitted.where,)
            )
        elif gap > _LOOSE:
            hint = "Centre it with a ring that fills the gap."
            yield Found(
                text,
                hint,
                other.where,
                severity=Severity.REMARK,
                signal=Signal.NOTICE,
                see=(fitted.where,),
            )
        else:
            yield Judged()
