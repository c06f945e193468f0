"""Between, above or below which plates of the frame a part sits, as far as the frame says where they
are.
"""

from builder.model.build import Build, Fitted
from builder.model.kinds import Frame
from builder.model.kinds.airframe import Plate
from builder.model.values.lengths_text import Position


def _covers(plate: Plate, seat: Position) -> bool:
    """Whether a place is over or under a plate; a plate that is turned is taken as if it were not."""
    length, width, *_ = plate.size.along
    return abs(seat.x - plate.at.x) <= length / 2 and abs(seat.y - plate.at.y) <= width / 2


def _plates(build: Build) -> list[Plate]:
    """The plates of the frame from the lowest to the highest."""
    return sorted((p for f in build.of_kind(Frame) for p in f.part.plates), key=lambda p: p.at.z)


def _level(build: Build, seat: Position) -> str:
    """Between, above or below which plates a place is. Above the lowest alone most parts sit."""
    plates = _plates(build)
    near = [p for p in plates if _covers(p, seat)]
    low = [p.what for p in near if p.at.z < seat.z]
    high = [p.what for p in near if p.at.z > seat.z]
    if low and high:
        return "between the plates"
    if high:
        return f"below the {high[0]}"
    return f"above the {low[-1]}" if low and low[-1] != plates[0].what else ""


def level_words(build: Build, fitted: Fitted) -> str:
    """`between the plates`, `above the top plate`; '' where it is not known, its pieces differ, or it
    sits on the only plate there is.
    """
    found = {_level(build, seat) for seat in fitted.said_places}
    return found.pop() if len(found) == 1 else ""


def plate_below(build: Build, fitted: Fitted) -> str:
    """The plate that a part sits on with nothing above it; '' where there is none."""
    return level_words(build, fitted).partition("above the ")[2]
