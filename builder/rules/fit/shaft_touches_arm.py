"""A motor's shaft that stands on the arm.

Checks: how far the shaft stands out under the motor, against the washers that are listed between
motor and arm.
Why: the motor does not sit flat; its bearing is pushed up, and the shaft's clip wears through or
lets go.
Example: a shaft that stands out by 0.4 mm on a plain arm.
Mend: washers under the motor, or an arm with a hole under the shaft (say `arm_hole` on the frame).
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.fit._airframe import frames, motors
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import made, say

SEVERITY = Severity.FAULT


def check(case: Case) -> Iterator[Outcome]:
    held = [(p.screw.into, p.screw.washer) for p in case.build.screws if p.screw.into]
    known = ((into, washer) for into, washer in held if into and washer is not None)
    washers = {into.casefold().split()[0]: washer.value for into, washer in known}
    for frame, part in frames(case.build):
        for fitted, motor in motors(case.build):
            if motor.shaft_below is None:
                yield NotJudged(
                    f"how far the shaft of {fitted.key} stands out below", fitted.shelf_where
                )
                continue
            out = motor.shaft_below.value - washers.get(fitted.key, washers.get("motor", 0.0))
            hole = part.arm_hole.value if part.arm_hole is not None else 0.0
            through = motor.shaft is not None and hole > motor.shaft.value
            if out > 0.0 and not through:
                yield Found(
                    say(
                        "The shaft of {} stands out by {} and touches the arm of {}.",
                        fitted.key,
                        made(out, "m", f"shelf/{fitted.shelf}/shaft_below"),
                        frame.key,
                    ),
                    "Put washers under the motor, as thick as that or more, and screws that much"
                    " longer.",
                    fitted.where,
                    see=(fitted.shelf_where.at("shaft_below"),),
                )
            else:
                yield Judged()
