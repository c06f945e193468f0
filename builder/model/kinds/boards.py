"""Speed controllers, flight controllers, and both on one board."""

from typing import ClassVar, Literal

from builder.model.source.part import Part
from builder.model.values.base import ShuntResistance
from builder.model.values.bounds_of_bodies import (
    Channels,
    Clearance,
    HardwareWidth,
    Height,
    HolePattern,
    OrdinalNumber,
    Phases,
    Turn,
)
from builder.model.values.bounds_of_circuits import (
    ElectricalRevolutions,
    Limit,
    SensorSensitivity,
    SeriesCells,
    ShortCurrent,
)
from builder.model.values.quantities import Text, Yes

Arrow = Literal["forward", "rearward", "left", "right"]


class SpeedController(Part):
    """Drives the motors. `corners` maps its channels to the corners for which the maker labels
    them.
    """

    KIND: ClassVar[str] = "speed-controller"
    GROUP: ClassVar[str] = "electronics"

    channels: Channels | None = None  #: how many motors it drives
    continuous: Limit | None = None  #: current of one channel for long
    burst: ShortCurrent | None = None  #: current of one channel for a while
    cells: SeriesCells | None = None  #: cells in series that it takes
    phases: Phases = 3  #: 3, or 2 for brushed motors
    shunt: ShuntResistance | None = None  #: resistance of its current shunt
    #: what its current sensor gives for each ampere
    current_sensitivity: SensorSensitivity | None = None
    height: Height | None = None  #: height with its parts
    pattern: HolePattern | None = None  #: hole pattern
    hole_free: HardwareWidth | None = None  #: diameter around each hole that is free of bare copper
    soft_mount: Clearance | None = None  #: height of its soft mounts
    arrow: Arrow | None = None  #: the way its arrow points in its own drawing
    #: corner for which the maker labels each channel
    channel_corners: dict[str, Text] | None = None
    #: fastest turns of the field that it follows: speed of the motor times its pairs of magnets
    electrical_rpm: ElectricalRevolutions | None = None
    software: Text | None = None  #: name and version, as free text


class FlightController(Part):
    """The control board."""

    KIND: ClassVar[str] = "flight-controller"
    GROUP: ClassVar[str] = "electronics"

    arrow: Arrow | None = None  #: the way its arrow points in its own drawing
    pattern: HolePattern | None = None  #: hole pattern
    hole_free: HardwareWidth | None = None  #: diameter around each hole that is free of bare copper
    soft_mount: Clearance | None = None  #: height of its soft mounts
    height: Height | None = None  #: height with its parts
    half_duplex: tuple[OrdinalNumber, ...] = ()  #: serial ports that can work on one wire
    inverts: tuple[OrdinalNumber, ...] = ()  #: serial ports that can invert
    on_usb: tuple[Text, ...] = ()  #: rails that are alive on USB
    usb_limit: Limit | None = None  #: current that USB gives it
    software: Text | None = None  #: name and version, as free text
    software_for: Text | None = None  #: the board that its software is made for, as free text


class CombinedBoard(SpeedController):
    """Speed and flight controller on one body; `pattern_turn` is how far its holes are turned
    against its arrow.
    """

    KIND: ClassVar[str] = "combined-board"

    half_duplex: tuple[OrdinalNumber, ...] = ()  #: serial ports that can work on one wire
    inverts: tuple[OrdinalNumber, ...] = ()  #: serial ports that can invert
    on_usb: tuple[Text, ...] = ()  #: rails that are alive on USB
    usb_limit: Limit | None = None  #: current that USB gives it
    software_for: Text | None = None  #: the board that its software is made for, as free text
    pattern_turn: Turn | None = None  #: how far its holes are turned against its arrow
    receiver: Text | None = None  #: protocol of the receiver on it
    receiver_built_in: Yes = False  #: yes if a control receiver is on it
