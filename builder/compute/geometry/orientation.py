"""How a board lies in the aircraft: where its arrow points and which face looks up, as the build
says.
"""

from dataclasses import dataclass
from math import degrees, radians

from builder.compute.figures.told import PlainValue, WordsOrTold, told
from builder.load.assumed import assumed
from builder.model.build import Fitted
from builder.model.kinds import Compass, SatelliteReceiver

_TO = ("to the front", "to the right", "to the rear", "to the left")  # clockwise, seen from above
NOT_GIVEN = "The mounting direction is not given in this sheet: not known."
_EVEN = assumed("mounting/quarter-turn")


@dataclass(frozen=True, slots=True)
class BoardLie:
    """A board's turn in degrees clockwise, seen from above (None where nobody says), and whether
    its top looks down.

    A board that lies face down is first turned over about the line from nose to tail, then turned.
    """

    yaw: float | None
    down: bool

    @property
    def quarters(self) -> int:
        """Quarter turns clockwise, the nearest."""
        return int((self.yaw or 0.0) // 90 + ((self.yaw or 0.0) % 90 >= 45)) % 4

    @property
    def askew(self) -> bool:
        """Whether it lies at no quarter turn."""
        return self.yaw is not None and abs((self.yaw + 45) % 90 - 45) > _EVEN


def lies(fitted: Fitted) -> BoardLie:
    """How a part of the build lies."""
    yaw = fitted.use.yaw
    return BoardLie(
        degrees(yaw.value) % 360 if yaw is not None else None, fitted.use.face == "down"
    )


def _direction(found: BoardLie, what: str) -> WordsOrTold:
    face = "face down" if found.down else "face up"
    if found.yaw is None or not found.askew:
        return f"{what} {_TO[found.quarters]}, {face}"
    turned = PlainValue(radians(found.yaw), "rad")
    return told(f"{what} turned ", turned, f" clockwise from the front, seen from above, {face}")


def arrow_words(fitted: Fitted) -> WordsOrTold:
    """Where the arrow of a board points and which face looks up; '' where nobody says, or it has no
    arrow.
    """
    found = lies(fitted)
    if found.yaw is None or getattr(fitted.part, "arrow", None) is None:
        return ""
    return _direction(found, "arrow")


def mounting_words(fitted: Fitted) -> WordsOrTold:
    """The end of the sentence that sets a board in: its direction, or that it is not known."""
    words = arrow_words(fitted)
    if words:
        return told(", ", words, ".")
    face = ", face down" if lies(fitted).down else ""
    return f"{face}. {NOT_GIVEN} Look it up before you fix the board."


def load_words(fitted: Fitted) -> WordsOrTold:
    """The same for what hangs on the boards, '' for a part that may point anywhere as far as
    anybody says.

    A compass, and a satellite receiver with one on it, must point a way; their entries have no
    arrow of their own.
    """
    found = lies(fitted)
    if found.yaw is not None:
        return told(", ", _direction(found, "its front"), ".")
    if isinstance(fitted.part, SatelliteReceiver | Compass):
        return f". {NOT_GIVEN}"
    return "."
