"""A propeller that does not go on its motor.

Checks: the kind of mount of motor and propeller, the spacing of its screws, and the nut against the
shaft.
Why: it cannot be fastened, or comes off in flight.
Example: a propeller for a shaft nut on a motor with two screws.
Mend: take propellers for the motor's mount.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.geometry.screws import thread_diameter
from builder.diagnostics.finding import Severity, Signal
from builder.load.assumed import assumed
from builder.model.build import Fitted
from builder.model.kinds import Motor, Propeller
from builder.rules.fit._airframe import motor_propeller_pairs
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_SLACK = assumed("mounting/shaft-slack")


def _wrong(fitted: Fitted, motor: Motor, other: Fitted, propeller: Propeller) -> str | None:
    """What does not go together, in words."""
    mount = propeller.mount
    if mount is None or motor.mount is None:
        return None
    if not motor.mount.strip().casefold().startswith(mount.style):
        return f"the motor is made for {motor.mount}, the propeller for {mount.style}"
    a, b = motor.mount_spacing, mount.spacing
    if a is not None and b is not None and abs(a.value - b.value) > _SLACK:
        apart, its_own = (
            given(a.value, "m", f"shelf/{fitted.shelf}/mount_spacing"),
            f"shelf/{other.shelf}/mount",
        )
        return say(
            "the motor's screws stand {} apart, the propeller's {}",
            apart,
            given(b.value, "m", its_own),
        )
    nut = thread_diameter(propeller.nut) if mount.style == "shaft nut" else None
    if nut is not None and motor.shaft is not None and abs(nut - motor.shaft.value) > _SLACK:
        shaft = given(motor.shaft.value, "m", f"shelf/{fitted.shelf}/shaft")
        return say("the nut is {}, the shaft {}", propeller.nut, shaft)
    return None


def check(case: Case) -> Iterator[Outcome]:
    for fitted, motor, other, propeller in motor_propeller_pairs(case.build):
        if motor.mount is None:
            yield NotJudged(f"how a propeller sits on {fitted.key}", fitted.shelf_where)
        elif propeller.mount is None:
            yield NotJudged(f"mount of {other.key}", other.shelf_where)
        elif (wrong := _wrong(fitted, motor, other, propeller)) is not None:
            yield Found(
                say("{} does not go on {}: {}.", other.key, fitted.key, wrong),
                "Take propellers for the motor's mount.",
                other.where,
                see=(fitted.where,),
            )
        elif (motor.mount_spacing is None) != (propeller.mount.spacing is None):
            yield NotJudged(
                f"how far apart the propeller's screws of {fitted.key} and {other.key} stand",
                fitted.shelf_where,
            )
        else:
            yield Judged()
