"""Which rotors work in another's wash, and what that costs in hover and at full throttle."""

from collections.abc import Callable
from itertools import combinations
from math import dist, fsum

from builder.compute.figures.figure import MaybeFigure, Unknown, apply, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.formulas.rotors.wash import overlap_of_discs, power_with_overlap
from builder.compute.geometry.clearances import Disc, discs, motor_places, on_one_axis
from builder.load.assumed import assumed, assumed_list
from builder.model.build import Build
from builder.model.kinds import Frame

DiscPair = tuple[Disc, Disc]

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


def _apart(pair: DiscPair) -> float:
    """Way between the middles of two discs, seen from above (m)."""
    one, other = pair
    return dist(one.middle[:2], other.middle[:2])


def _meet_in_three(overlapping: list[DiscPair]) -> bool:
    """Whether three discs overlap each other by twos, so that a place can lie under all."""
    pairs = {frozenset((a.motor, b.motor)) for a, b in overlapping}
    motors = sorted(frozenset[str]().union(*pairs))
    for three in combinations(motors, 3):
        twos = {frozenset(two) for two in combinations(three, 2)}
        if twos <= pairs:
            return True
    return False


def _overlapping(build: Build) -> list[DiscPair]:
    """Discs that overlap in part, by twos; without those on one axis."""
    on_axis = {frozenset(pair) for pair in on_one_axis(motor_places(build))}
    found = []
    for pair in combinations(discs(build), 2):
        one, other = pair
        if frozenset((one.motor, other.motor)) in on_axis:
            continue
        if _apart(pair) < one.radius + other.radius:
            found.append(pair)
    return found


def _is_far(pair: DiscPair) -> bool:
    """Whether two discs are further above each other than the factor holds."""
    one, other = pair
    height = abs(one.middle[2] - other.middle[2])
    return height > _GAP * 2.0 * one.radius


def _in_part(rotors: int, overlapping: list[DiscPair]) -> MaybeFigure:
    """The factor where discs overlap in part."""
    if _meet_in_three(overlapping):
        return Unknown("wash", _LABEL, (_THREE,))
    if any(_is_far(pair) for pair in overlapping):
        return Unknown("wash", _LABEL, (_FAR,))
    shares = (overlap_of_discs(_apart(pair), 2.0 * pair[0].radius) for pair in overlapping)
    covered = fsum(shares)
    factor = power_with_overlap(covered, float(rotors))
    usual, spread = _WASH
    own = spread * (factor - 1.0) / (usual - 1.0)
    return leaf("wash", _LABEL, factor, "1", own=own, basis="estimate", note=_PART)


def _wash(build: Build) -> MaybeFigure | None:
    """The factor on the power of all rotors; None where every rotor has clear air, not known where
    only some are in pairs.
    """
    share, overlapping = _paired(build), _overlapping(build)
    if not share and not overlapping:
        return None
    if not share:
        rotors = len(motor_places(build))
        return _in_part(rotors, overlapping)
    if share < 1.0:
        return Unknown("wash", _LABEL, (_ONLY_SOME,))
    if overlapping:
        return Unknown("wash", _LABEL, (_THREE,))
    usual, spread = _WASH
    return leaf("wash", _LABEL, usual, "1", own=spread, basis="estimate", note=_NOTE)


def by_wash(
    build: Build, thrust: MaybeFigure, key: str, label: str, how: Callable[[float, float], float]
) -> MaybeFigure:
    """A thrust brought from one air to the other at the same power, by a formula of thrust and the
    factor; the thrust itself where every rotor has clear air.
    """
    factor = _wash(build)
    return thrust if factor is None else apply(key, label, formula(how), thrust, factor)
