"""What rides along: camera, video transmitter, receiver, satellite receiver, compass, buzzer,
lights.
"""

from typing import ClassVar, Literal

from builder.model.source.part import Part
from builder.model.values.base import Frozen, Short
from builder.model.values.bounds_of_bodies import (
    Bend,
    Dwell,
    HeatLimit,
    HolePattern,
    KeepOut,
    Pieces,
    ShareOfWhole,
    Turn,
    Ways,
    Width,
    WireLength,
)
from builder.model.values.bounds_of_circuits import (
    Impedance,
    LoadCurrent,
    PeakDraw,
    RadioSpan,
    Sensitivity,
    SentPower,
    SupplyVolts,
)
from builder.model.values.quantities import (
    Text,
    Yes,
)

Polarisation = Literal["right-hand", "left-hand", "linear"]
CoaxGender = Literal["pin", "socket"]


class Ribbon(Frozen):
    """A flat cable: its length, the tightest bend it takes and its ways."""

    length: WireLength | None = None  #: its length
    bend: Bend | None = None  #: tightest bend that it takes
    ways: Ways | None = None  #: how many ways


class Coax(Frozen):
    """An antenna connector by type and gender of its middle contact."""

    type: Text  #: name of its type
    gender: CoaxGender | None = None  #: whether its middle contact is a pin or a socket


class Camera(Part):
    """A flight camera."""

    KIND: ClassVar[str] = "camera"
    GROUP: ClassVar[str] = "video"

    width: Width | None = None  #: width between the cheeks
    output: Impedance | None = None  #: impedance of its picture output
    tilt: Turn | None = None  #: how far it looks up
    ribbon: Ribbon | None = None  #: its flat cable
    speaks: Text | None = None  #: how its picture is carried


class OutputPower(Short):
    """One power step of a transmitter and what it draws then at its lowest accepted volts (or the
    volts given).
    """

    SHORT: ClassVar[str] = "power"

    power: SentPower  #: the power that it radiates
    draw: LoadCurrent | None = None  #: current at that step
    volts: SupplyVolts | None = None  #: volts at which that was measured


class VideoTransmitter(Part):
    """A video transmitter, analogue or digital. `set` is the power step that the build uses."""

    KIND: ClassVar[str] = "video-transmitter"
    GROUP: ClassVar[str] = "video"

    powers: tuple[OutputPower, ...] = ()  #: its power steps
    set: SentPower | None = None  #: the step that is used
    bands: tuple[Text, ...] = ()  #: bands of the site's table that it knows
    range: RadioSpan | None = None  #: frequencies that it can reach
    coax: Coax | None = None  #: its antenna connector
    antenna: Literal["coax", "fixed"] | None = None  #: how its antenna is joined
    ribbon: Ribbon | None = None  #: its flat cable
    air_after: Dwell | None = None  #: time after which it needs moving air
    heat_limit: HeatLimit | None = None  #: temperature at which it protects itself
    pattern: HolePattern | None = None  #: hole pattern
    speaks: Text | None = None  #: protocol of its control pad, or of its picture
    sensitivity: Sensitivity | None = None  #: weakest signal that its receiver still shows
    digital: Yes = False  #: yes if its picture is digital


class Receiver(Part):
    """The receiver of the control link."""

    KIND: ClassVar[str] = "receiver"
    GROUP: ClassVar[str] = "radio"

    speaks: Text | None = None  #: which protocol it sends
    one_way: Yes = False  #: yes if it sends nothing back
    antenna: Literal["chip", "coax", "fixed"] | None = None  #: how its antenna is joined
    coax: Coax | None = None  #: its antenna connector
    telemetry: SentPower | None = None  #: power at which it answers
    band: Text | None = None  #: its band, in words
    range: RadioSpan | None = None  #: frequencies that it can reach
    sensitivity: Sensitivity | None = None  #: weakest signal that it still hears
    bears: Sensitivity | None = None  #: strongest signal on another band that it hears beside


class SatelliteReceiver(Part):
    """A satellite positioning receiver, often with a compass on it."""

    KIND: ClassVar[str] = "satellite-receiver"
    GROUP: ClassVar[str] = "radio"

    speaks: Text | None = None  #: which protocol it sends
    compass: Yes = False  #: yes if a compass is on it
    compass_turn: Turn | None = None  #: how far the compass is turned on it
    keepout: KeepOut | None = None  #: distance to keep from currents


class Compass(Part):
    """A compass of its own."""

    KIND: ClassVar[str] = "compass"
    GROUP: ClassVar[str] = "radio"

    turn: Turn | None = None  #: how far it is turned on its board
    keepout: KeepOut | None = None  #: distance to keep from currents


class Buzzer(Part):
    """A buzzer; `self_sounding` needs only volts, else a tone."""

    KIND: ClassVar[str] = "buzzer"
    GROUP: ClassVar[str] = "electronics"

    volts: SupplyVolts | None = None  #: its volts
    draw: LoadCurrent | None = None  #: current while it sounds
    self_sounding: Yes | None = None  #: yes if it needs only volts; no if it needs a tone
    own_cell: Yes = False  #: yes if it has a battery of its own


class Lights(Part):
    """A row of addressable lights."""

    KIND: ClassVar[str] = "lights"
    GROUP: ClassVar[str] = "electronics"

    lamps: Pieces | None = None  #: how many lamps
    each: PeakDraw | None = None  #: current of one lamp at full light
    duty: ShareOfWhole | None = None  #: share of full light that is used
    volts: SupplyVolts | None = None  #: its volts
