"""A motor whose holes the frame does not have.

Checks: the motor's hole circles against those of the frame, within 0.3 mm.
Why: it cannot be screwed down with all its screws, and shakes itself loose on fewer.
Example: a motor of 16 mm M3 on arms drilled for 9 mm M2.
Mend: take motors of the frame's pattern, or another frame.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.model.values.lengths_text import Pattern
from builder.rules.fit._airframe import frames, motors
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
_SLACK = assumed("mounting/motor-pattern")


def _circles(pattern: Pattern) -> tuple[float, ...]:
    return (pattern.across,) if pattern.along is None else (pattern.across, pattern.along)


def _takes(frame: Pattern, motor: Pattern) -> bool:
    return all(any(abs(a - b) <= _SLACK for b in _circles(frame)) for a in _circles(motor))


def check(case: Case) -> Iterator[Outcome]:
    for frame, part in frames(case.build):
        for fitted, motor in motors(case.build):
            if motor.pattern is None:
                yield NotJudged(f"hole pattern of {fitted.key}", fitted.shelf_where)
            elif part.motor_pattern is None:
                yield NotJudged(f"motor pattern of {frame.key}", frame.shelf_where)
            elif not _takes(part.motor_pattern, motor.pattern):
                yield Found(
                    f"{fitted.key} has holes of {motor.pattern.label}, and the arms of {frame.key}"
                    f" have {part.motor_pattern.label}.",
                    "Take motors of the frame's pattern.",
                    fitted.where,
                    see=(frame.where,),
                )
            else:
                yield Judged()
