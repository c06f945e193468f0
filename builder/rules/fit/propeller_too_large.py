"""A propeller larger than the frame takes.

Checks: its diameter against the largest disc of the frame, and neighbouring discs against each
other.
Why: blades that touch break in the first second, and throw their tips at whoever stands near.
Example: propellers of 76 mm on a frame for 65 mm.
Mend: take smaller propellers, or a larger frame.
Source: geometry
"""

from collections.abc import Iterator
from itertools import combinations
from math import dist

from builder.compute.geometry.clearances import discs
from builder.diagnostics.finding import Severity, Signal
from builder.load.assumed import assumed
from builder.rules.fit._airframe import frames, propellers
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_COAXIAL, _PLANE = assumed("mounting/one-axis"), assumed("mounting/one-plane")


def _overlap(case: Case) -> tuple[str, str, float] | None:
    for a, b in combinations(discs(case.build), 2):
        apart = dist(a.middle[:2], b.middle[:2])
        if (
            apart > _COAXIAL
            and abs(a.middle[2] - b.middle[2]) < _PLANE
            and apart < a.radius + b.radius
        ):
            return a.motor, b.motor, a.radius + b.radius - apart
    return None


def check(case: Case) -> Iterator[Outcome]:
    for frame, part in frames(case.build):
        for fitted, propeller in propellers(case.build):
            if propeller.diameter is None:
                yield NotJudged(f"diameter of {fitted.key}", fitted.shelf_where)
                continue
            touching = _overlap(case)
            if part.disc_max is not None and propeller.diameter.value > part.disc_max.value:
                yield Found(
                    say(
                        "{} is {} across; {} takes up to {}.",
                        fitted.key,
                        given(propeller.diameter.value, "m", f"shelf/{fitted.shelf}/diameter"),
                        frame.key,
                        given(part.disc_max.value, "m", f"shelf/{frame.shelf}/disc_max"),
                    ),
                    "Take smaller propellers, or a larger frame.",
                    fitted.where,
                    see=(frame.where,),
                )
            elif touching is not None:
                yield Found(
                    say(
                        "The discs of motors {} and {} overlap by {}.",
                        *touching[:2],
                        made(touching[2], "m"),
                    ),
                    "Take smaller propellers, or a larger frame.",
                    fitted.where,
                    see=(frame.where,),
                )
            elif part.disc_max is None and not part.motors:
                yield NotJudged(f"largest disc of {frame.key}", frame.shelf_where)
            else:
                yield Judged()
