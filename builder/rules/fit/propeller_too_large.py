"""A propeller larger than the frame takes.

Checks: its diameter against the largest disc of the frame, and neighbouring discs against each other.
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
from builder.rules.fit._airframe import MM, frames, propellers
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_COAXIAL, _PLANE = 0.005, 0.008  # m: nearer shafts are one above the other; discs further apart in height pass


def _overlap(case: Case) -> tuple[str, str, float] | None:
    for a, b in combinations(discs(case.build), 2):
        apart = dist(a.middle[:2], b.middle[:2])
        if apart > _COAXIAL and abs(a.middle[2] - b.middle[2]) < _PLANE and apart < a.radius + b.radius:
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
                    f"{fitted.key} is {MM * propeller.diameter.value:.1f} mm across; {frame.key} takes up to "
                    f"{MM * part.disc_max.value:.1f} mm.",
                    "Take smaller propellers, or a larger frame.",
                    fitted.where,
                    see=(frame.where,),
                )
            elif touching is not None:
                yield Found(
                    f"The discs of motors {touching[0]} and {touching[1]} overlap by {MM * touching[2]:.1f} mm.",
                    "Take smaller propellers, or a larger frame.",
                    fitted.where,
                    see=(frame.where,),
                )
            elif part.disc_max is None and not part.motors:
                yield NotJudged(f"largest disc of {frame.key}", frame.shelf_where)
            else:
                yield Judged()
