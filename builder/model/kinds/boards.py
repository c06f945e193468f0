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

    channels: Count | None = None
    continuous: Current | None = None
    burst: BurstText | None = None
    cells: CellsText | None = None
    phases: Count = 3
    shunt: SourcedResistance | None = None
    current_scale: CurrentScale | None = None
    height: Length | None = None
    pattern: PatternText | None = None
    soft_mount: Length | None = None
    arrow: Arrow | None = None
    channel_corners: dict[str, Text] | None = None
    software: Text | None = None


class FlightController(Part):
    """The control board."""

    KIND: ClassVar[str] = "flight-controller"
    GROUP: ClassVar[str] = "electronics"

    arrow: Arrow | None = None
    pattern: PatternText | None = None
    soft_mount: Length | None = None
    height: Length | None = None
    half_duplex: tuple[Count, ...] = ()
    inverts: tuple[Count, ...] = ()
    on_usb: tuple[Text, ...] = ()
    usb_limit: Current | None = None
    software: Text | None = None
    board_target: Text | None = None


class CombinedBoard(SpeedController):
    """Speed and flight controller on one body; `pattern_turn` is how far its holes are turned against its arrow."""

    KIND: ClassVar[str] = "combined-board"

    half_duplex: tuple[Count, ...] = ()
    inverts: tuple[Count, ...] = ()
    on_usb: tuple[Text, ...] = ()
    usb_limit: Current | None = None
    board_target: Text | None = None
    pattern_turn: Angle | None = None
    receiver: Text | None = None
    receiver_built_in: Yes = False
