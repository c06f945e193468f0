"""What several rules of fit look at: the frame, motors and propellers of a build, with their
classes known.
"""

from builder.model.build import Build, Fitted
from builder.model.kinds import Frame, Motor, Propeller


def frames(build: Build) -> tuple[tuple[Fitted, Frame], ...]:
    """Frames with their parts."""
    return tuple((f, f.part) for f in build.parts.values() if isinstance(f.part, Frame))


def motors(build: Build) -> tuple[tuple[Fitted, Motor], ...]:
    """Motors with their parts."""
    return tuple((f, f.part) for f in build.parts.values() if isinstance(f.part, Motor))


def propellers(build: Build) -> tuple[tuple[Fitted, Propeller], ...]:
    """Propellers with their parts."""
    return tuple((f, f.part) for f in build.parts.values() if isinstance(f.part, Propeller))


def motor_propeller_pairs(build: Build) -> tuple[tuple[Fitted, Motor, Fitted, Propeller], ...]:
    """Every motor with every propeller: a build has one kind of each, as a rule."""
    return tuple((m, mp, p, pp) for m, mp in motors(build) for p, pp in propellers(build))
