"""Which rotors work in another's wash, and what that costs in hover and at full throttle."""

from builder.compute.figures.figure import MaybeFigure, Unknown, apply, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.formulas.rotors.wash import thrust_in_clear_air, thrust_in_wash
from builder.compute.geometry.clearances import motor_places, on_one_axis
from builder.load.assumed import assumed_list
from builder.model.build import Build
from builder.model.kinds import Frame

_WASH = assumed_list("flight/wash")
_NOTE = "two rotors above each other at equal thrust, the lower one in the contracted wash"
_LACKS = "what the wash costs where only some motors are above each other"


def _paired(build: Build) -> float:
    """The share of the motors that stand above or below another."""
    if any(f.part.motors_per_arm > 1 for f in build.of_kind(Frame)):
        return 1.0
    places = motor_places(build)
    paired = {n for pair in on_one_axis(places) for n in pair}
    return len(paired) / len(places) if places else 0.0


def wash(build: Build) -> MaybeFigure | None:
    """The factor on the power of a pair; None where every rotor has clear air, not known where only
    some are in pairs.
    """
    share = _paired(build)
    if not share:
        return None
    label = "Power of two rotors above each other, over two in clear air"
    if share < 1.0:
        return Unknown("wash", label, (_LACKS,))
    return leaf("wash", label, _WASH[0], "1", own=_WASH[1], basis="estimate", note=_NOTE)


def wanted_in_clear_air(build: Build, thrust: MaybeFigure, key: str) -> MaybeFigure:
    """The thrust of one rotor as its power goes: what it would be in clear air."""
    factor = wash(build)
    if factor is None:
        return thrust
    label = "Thrust of one rotor that takes as much in clear air"
    return apply(f"{key}/clear-air", label, formula(thrust_in_clear_air), thrust, factor)


def left_in_wash(build: Build, thrust: MaybeFigure, key: str) -> MaybeFigure:
    """The full thrust of all rotors, less what the wash takes."""
    factor = wash(build)
    if factor is None:
        return thrust
    label = "Full thrust, rotors in pairs"
    return apply(f"{key}/in-wash", label, formula(thrust_in_wash), thrust, factor)
