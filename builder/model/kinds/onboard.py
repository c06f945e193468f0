"""What rides along: camera, video transmitter, receiver, satellite receiver, compass, buzzer, lights."""

from typing import ClassVar, Literal

from builder.model.base import Frozen
from builder.model.measures import BurstText, PatternText
from builder.model.part import Part
from builder.model.quantities import (
    Angle,
    Count,
    Current,
    Duration,
    FrequencySpan,
    Length,
    Level,
    Power,
    Resistance,
    Share,
    Temperature,
    Text,
    Voltage,
    Yes,
)

Polarisation = Literal["right-hand", "left-hand", "linear"]
CoaxGender = Literal["pin", "socket"]


class Ribbon(Frozen):
    """A flat cable: its length, the tightest bend it takes and its ways."""

    length: Length | None = None
    bend: Length | None = None
    ways: Count | None = None


class Coax(Frozen):
    """An antenna connector by type and gender of its middle contact."""

    type: Text
    gender: CoaxGender | None = None


class Camera(Part):
    """A flight camera."""

    KIND: ClassVar[str] = "camera"
    GROUP: ClassVar[str] = "video"

    width: Length | None = None
    output: Resistance | None = None
    tilt: Angle | None = None
    ribbon: Ribbon | None = None
    speaks: Text | None = None


class OutputPower(Frozen):
    """One power step of a transmitter and what it draws then at its lowest accepted volts (or the volts given)."""

    power: Power
    draw: Current | None = None
    volts: Voltage | None = None


class VideoTransmitter(Part):
    """A video transmitter, analogue or digital. `set` is the power step that the build uses."""

    KIND: ClassVar[str] = "video-transmitter"
    GROUP: ClassVar[str] = "video"

    powers: tuple[OutputPower, ...] = ()
    set: Power | None = None
    bands: tuple[Text, ...] = ()
    range: FrequencySpan | None = None
    coax: Coax | None = None
    antenna: Literal["coax", "fixed"] | None = None
    ribbon: Ribbon | None = None
    air_after: Duration | None = None
    heat_limit: Temperature | None = None
    pattern: PatternText | None = None
    speaks: Text | None = None
    sensitivity: Level | None = None
    digital: Yes = False


class Receiver(Part):
    """The receiver of the control link."""

    KIND: ClassVar[str] = "receiver"
    GROUP: ClassVar[str] = "radio"

    speaks: Text | None = None
    one_way: Yes = False
    antenna: Literal["chip", "coax", "fixed"] | None = None
    coax: Coax | None = None
    telemetry: Power | None = None
    band: Text | None = None
    range: FrequencySpan | None = None
    sensitivity: Level | None = None


class SatelliteReceiver(Part):
    """A satellite positioning receiver, often with a compass on it."""

    KIND: ClassVar[str] = "satellite-receiver"
    GROUP: ClassVar[str] = "radio"

    speaks: Text | None = None
    compass: Yes = False
    compass_turn: Angle | None = None
    keepout: Length | None = None


class Compass(Part):
    """A compass of its own."""

    KIND: ClassVar[str] = "compass"
    GROUP: ClassVar[str] = "radio"

    turn: Angle | None = None
    keepout: Length | None = None


class Buzzer(Part):
    """A buzzer; `self_sounding` needs only volts, else a tone."""

    KIND: ClassVar[str] = "buzzer"
    GROUP: ClassVar[str] = "electronics"

    volts: Voltage | None = None
    draw: Current | None = None
    self_sounding: Yes | None = None
    own_cell: Yes = False


class Lights(Part):
    """A row of addressable lights."""

    KIND: ClassVar[str] = "lights"
    GROUP: ClassVar[str] = "electronics"

    lamps: Count | None = None
    each: BurstText | None = None
    duty: Share | None = None
    volts: Voltage | None = None
