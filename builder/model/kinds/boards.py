"""Speed controllers, flight controllers, and both on one board."""

from typing import ClassVar, Literal

from builder.model.base import SourcedResistance
from builder.model.measures import BurstText, CellsText, PatternText
from builder.model.part import Part
from builder.model.quantities import Angle, Count, Current, CurrentScale, Length, Text, Yes

Arrow = Literal["forward", "rearward", "left", "right"]


class SpeedController(Part):
    """Drives the motors. `corners` maps its channels to the corners for which the maker labels them."""

    KIND: ClassVar[str] = "speed-controller"
    GROUP: ClassVar[str] = "electronics"

    channels: Count | None = None  #: how many motors it drives
    continuous: Current | None = None  #: current of one channel for long
    burst: BurstText | None = None  #: current of one channel for a while
    cells: CellsText | None = None  #: cells in series that it takes
    phases: Count = 3  #: 3, or 2 for brushed motors
    shunt: SourcedResistance | None = None  #: resistance of its current shunt
    current_scale: CurrentScale | None = None  #: scale of its current reading
    height: Length | None = None  #: height with its parts
    pattern: PatternText | None = None  #: hole pattern
    soft_mount: Length | None = None  #: height of its soft mounts
    arrow: Arrow | None = None  #: the way its arrow points in its own drawing
    channel_corners: dict[str, Text] | None = None  #: corner for which the maker labels each channel
    software: Text | None = None  #: name and version, as free text


class FlightController(Part):
    """The control board."""

    KIND: ClassVar[str] = "flight-controller"
    GROUP: ClassVar[str] = "electronics"

    arrow: Arrow | None = None  #: the way its arrow points in its own drawing
    pattern: PatternText | None = None  #: hole pattern
    soft_mount: Length | None = None  #: height of its soft mounts
    height: Length | None = None  #: height with its parts
    half_duplex: tuple[Count, ...] = ()  #: serial ports that can work on one wire
    inverts: tuple[Count, ...] = ()  #: serial ports that can invert
    on_usb: tuple[Text, ...] = ()  #: rails that are alive on USB
    usb_limit: Current | None = None  #: current that USB gives it
    software: Text | None = None  #: name and version, as free text
    board_target: Text | None = None  #: what the software calls the board, as free text


class CombinedBoard(SpeedController):
    """Speed and flight controller on one body; `pattern_turn` is how far its holes are turned against its arrow."""

    KIND: ClassVar[str] = "combined-board"

    half_duplex: tuple[Count, ...] = ()  #: serial ports that can work on one wire
    inverts: tuple[Count, ...] = ()  #: serial ports that can invert
    on_usb: tuple[Text, ...] = ()  #: rails that are alive on USB
    usb_limit: Current | None = None  #: current that USB gives it
    board_target: Text | None = None  #: what the software calls the board, as free text
    pattern_turn: Angle | None = None  #: how far its holes are turned against its arrow
    receiver: Text | None = None  #: speech of the receiver on it
    receiver_built_in: Yes = False  #: yes if a control receiver is on it
