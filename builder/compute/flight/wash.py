"""Which rotors work in another's wash, and what that costs in hover and at full throttle."""

from collections.abc import Callable
from itertools import combinations
from math import dist, fsum

from builder.compute.figures.figure import MaybeFigure, Unknown, apply, formula, leaf
from builder.compute.formulas.rotors.wash import overlap_of_discs, power_with_overlap
from builder.compute.geometry.clearances import Disc, discs, motor_places, on_one_axis
from builder.load.assumed import assumed, assumed_list
from builder.model.build import Build
from builder.model.kinds import Frame

_WASH = assumed_list("flight/wash")
_GAP = assumed("flight/overlap-gap")
_NOTE = "two rotors above each other at equal thrust, the lower one in the contracted wash"
_PART = "rotors that overlap in part; the spread is common practice, no source"
_LABEL = "Power of all rotors, over as many in clear air"
_ONLY_SOME = "what the wash costs where only some motors are above each other"
_FAR = "what the wash costs where discs overlap in part and are far above each other"
_THREE = "what the wash costs where three discs are above each other"


def _paired(build: Build) -> float:
    """The share of the motors that stand above or below another."""
    if any(f.part.motors_per_arm > 1 for f in build.of_kind(Frame)):
        return 1.0
    places = motor_places(build)
    paired = {n for pair in on_one_axis(places) for n in pair}
    return len(paired) / len(places) if places else 0.0


def _meet_in_three(overlapping: list[tuple[Disc, Disc]]) -> bool:
    """Whether three discs overlap each other by twos, so that a place can lie under all."""
    pairs = {frozenset((a.motor, b.motor)) for a, b in overlapping}
    motors = sorted({m for pair in pairs for m in pair})
    triples = (combinations(three, 2) for three in combinations(motors, 3))
    return any(all(frozenset(two) in pairs for two in triple) for triple in triples)


def _overlapping(build: Build) -> list[tuple[Disc, Disc]]:
    """Discs that overlap in part, by twos; without those on one axis."""
    on_axis = {frozenset(pair) for pair in on_one_axis(motor_places(build))}
    pairs = combinations(discs(build), 2)
    apart = ((a, b) for a, b in pairs if frozenset((a.motor, b.motor)) not in on_axis)
    return [(a, b) for a, b in apart if dist(a.middle[:2], b.middle[:2]) < a.radius + b.radius]


def _in_part(rotors: int, overlapping: list[tuple[Disc, Disc]]) -> MaybeFigure:
    """The factor where discs overlap in part."""
    if _meet_in_three(overlapping):
        return Unknown("wash", _LABEL, (_THREE,))
    if any(abs(a.middle[2] - b.middle[2]) > _GAP * 2.0 * a.radius for a, b in overlapping):
        return Unknown("wash", _LABEL, (_FAR,))
    shares = (
        overlap_of_discs(dist(a.middle[:2], b.middle[:2]), 2.0 * a.radius) for a, b in overlapping
    )
    factor = power_with_overlap(fsum(shares), float(rotors))
    spread = _WASH[1] * (factor - 1.0) / (_WASH[0] - 1.0)
    return leaf("wash", _LABEL, factor, "1", own=spread, basis="estimate", note=_PART)


def _wash(build: Build) -> MaybeFigure | None:
    """The factor on the power of all rotors; None where every rotor has clear air, not known where
    only some are in pairs.
    """
    share, overlapping = _paired(build), _overlapping(build)
    if not share:
        return _in_part(len(motor_places(build)), overlapping) if overlapping else None
    if share < 1.0:
        return Unknown("wash", _LABEL, (_ONLY_SOME,))
    if overlapping:
        return Unknown("wash", _LABEL, (_THREE,))
    return leaf("wash", _LABEL, _WASH[0], "1", own=_WASH[1], basis="estimate", note=_NOTE)


def by_wash(
    build: Build, thrust: MaybeFigure, key: str, label: str, how: Callable[[float, float], float]
) -> MaybeFigure:
    """A thrust brought from one air to the other at the same power, by a formula of thrust and the
    factor; the thrust itself where every rotor has clear air.
    """
    factor = _wash(build)
    return thrust if factor is None else apply(key, label, formula(how), thrust, factor)
