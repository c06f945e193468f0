"""Between, above or below which plates of the frame a part sits, as far as the frame says where they
are.
"""

from builder.model.build import Build, Fitted
from builder.model.kinds import Frame
from builder.model.kinds.airframe import Plate
from builder.model.values.measures import Position


def _covers(plate: Plate, seat: Position) -> bool:
    """Whether a place is over or under a plate; a plate that is turned is taken as if it were not."""
    length, width, *_ = plate.size.along
    return abs(seat.x - plate.at.x) <= length / 2 and abs(seat.y - plate.at.y) <= width / 2


def _seats(fitted: Fitted) -> tuple[Position, ...]:
    one = (fitted.use.at,) if fitted.use.at is not None else ()
    return fitted.use.each_at or one


def _beside(build: Build, seat: Position) -> tuple[str, str]:
    """The plate next below a place and the one next above it; '' where none is known."""
    plates = [p for f in build.of_kind(Frame) for p in f.part.plates if _covers(p, seat)]
    plates.sort(key=lambda p: p.at.z)
    low = [p.what for p in plates if p.at.z < seat.z]
    high = [p.what for p in plates if p.at.z > seat.z]
    return "".join(low[-1:]), "".join(high[:1])


def level_words(build: Build, fitted: Fitted) -> str:
    """`between base plate and top plate`; '' where it is not known, or its pieces differ."""
    found = {_beside(build, seat) for seat in _seats(fitted)}
    if len(found) != 1:
        return ""
    low, high = found.pop()
    if low and high:
        return f"between {low} and {high}"
    if low:
        return f"above the {low}"
    return f"below the {high}" if high else ""


def plate_below(build: Build, fitted: Fitted) -> str:
    """The plate that a part sits on with nothing above it; '' where there is none."""
    return level_words(build, fitted).partition("above the ")[2]
