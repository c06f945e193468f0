"""The `setup:` group of a build: what is set after the iron is cold."""

import re
from typing import Annotated, Any, ClassVar, Literal

from pydantic import Field

from builder.model.values.base import Frozen, Short
from builder.model.values.bounds_of_bodies import (
    AirTemperature,
    Altitude,
    Distance,
    FlyingSpeed,
    OrdinalNumber,
    Poles,
    Reaction,
    ShareOfWhole,
    StyleFactor,
    Turn,
)
from builder.model.values.bounds_of_circuits import (
    AntennaGain,
    LandingCell,
    PackVoltage,
    RadioFrequency,
    SensorSensitivity,
    SentPower,
    UsedCharge,
)
from builder.model.values.mistaken import wrong
from builder.model.values.plain_values import parse_text
from builder.model.values.quantities import Text, Yes, reads
from builder.model.values.words import LostLink, own_words

Corner = Literal[
    "front left",
    "front right",
    "rear left",
    "rear right",
    "front",
    "rear",
    "left",
    "right",
    "middle left",
    "middle right",
    "right front",
    "right rear",
    "left front",
    "left rear",
    "front upper",
    "front lower",
    "rear upper",
    "rear lower",
    "left upper",
    "left lower",
    "right upper",
    "right lower",
    "front left upper",
    "front left lower",
    "front right upper",
    "front right lower",
    "rear left upper",
    "rear left lower",
    "rear right upper",
    "rear right lower",
]
Hand = Literal["clockwise", "counter-clockwise"]


class SerialUse(Frozen):
    """Which port serves what, and with which protocol."""

    port: OrdinalNumber  #: number of the port
    serves: Text  #: what hangs on it
    speaks: Text | None = None  #: which protocol it is set to
    inverted: Yes | None = None  #: yes if it is set to a signal that rests low
    half_duplex: Yes | None = None  #: yes if it is set to one wire
    rate: Text | None = None  #: its speed, in words


class SwitchUse(Frozen):
    """A switch of the transmitter and what its positions do."""

    name: Text  #: name of the switch
    does: Text | None = None  #: what it is for
    arms: Yes = False  #: yes if it arms the motors, whatever words say what it is for
    positions: tuple[Text, ...] = ()  #: what each position does, in order


_VOLTS_OR_CHARGE = r"\d\s*(?:[mM]?[vV]|[mM]?[aA][hH])\b|\b[vV]olts?\b|[mM]illiamp"


def _in_words(value: Any) -> str:
    """A warning in words; volts and charge of a pack are no words, since somebody flies by them."""
    text = parse_text(value)
    if re.search(_VOLTS_OR_CHARGE, text):
        hint = (
            "Write it under setup, 'alarms: [{pack: …, volts: 14.0 V, used: 520 mAh}]', and take it"
            " out here."
        )
        raise wrong(
            "data/wrong-shape",
            f"{text[:60]!r} is an alarm on volts or charge, which is set for each battery.",
            hint,
        )
    return text


InWords = Annotated[
    str, reads(_in_words, "text", pattern=rf"(?![\s\S]*(?:{_VOLTS_OR_CHARGE}))[\s\S]*")
]


class Alarm(Frozen):
    """When the pilot is warned on one battery: at which volts, and when how much of its charge is
    used.
    """

    pack: Text  #: the battery, as the build names it
    volts: PackVoltage | None = None  #: volts of the whole battery below which it warns
    used: UsedCharge | None = None  #: charge taken out of the battery above which it warns


class OverlayField(Short):
    """A figure that the picture carries, and where."""

    SHORT: ClassVar[str] = "field"

    field: Text  #: the figure
    at: Text | None = None  #: where it stands in the picture
    #: when it warns, in words; volts and charge of a battery stand under `alarms`
    warns: InWords | None = None


class RotationPlan(Frozen):
    """Which motor sits at which corner and which way it turns (seen from above).

    `outputs` says which drive output the software uses for a motor, where that is not the motor's
    own number.
    """

    corners: dict[str, Corner] = Field(default_factory=dict)  #: corner of each motor
    #: drive output of each motor, where it is not the motor's own number
    outputs: dict[str, OrdinalNumber] = Field(default_factory=dict)
    turns: dict[str, Hand] = Field(
        default_factory=dict
    )  #: the way each motor turns, seen from above
    #: in, if the front blades move towards the middle at the front; out, if away
    props: Literal["in", "out"] | None = None
    note: Text | None = None  #: a remark


class Orientation(Frozen):
    """How the software is told that the control board is mounted."""

    yaw: Turn | None = None  #: how far it is turned, clockwise, seen from above
    face: Literal["up", "down"] = "up"  #: the way its top looks
    pitch: Turn | None = None  #: how far its nose is up
    roll: Turn | None = None  #: how far it leans to the right


class ChannelUse(Frozen):
    """The video channel: a band and number of the workspace's own table, and the power step."""

    band: Text  #: band of the site's table
    number: OrdinalNumber | None = None  #: number of the channel in it
    power: SentPower | None = None  #: power that is set
    range: Distance | None = None  #: distance at which the picture should hold


class ControlLink(Frozen):
    """The control link's power, range and band; gain and polarisation are of the antenna on the
    ground.
    """

    band: Text | None = None  #: the band, in words
    power: SentPower | None = None  #: power that the hand transmitter is set to
    gain: AntennaGain | None = None  #: gain of the hand transmitter's antenna over isotropic
    #: of the hand transmitter's antenna
    polarisation: Literal["right-hand", "left-hand", "linear"] | None = None
    range: Distance | None = None  #: distance at which the link should hold
    frequency: RadioFrequency | None = None  #: middle frequency
    rate: Text | None = None  #: packets a second, in words


class FailSafe(Frozen):
    """What happens when the link is lost, and within which time."""

    #: what happens when the link is lost: motors stop, lands, comes home, holds throttle, or
    #: 'other: ' and what it does, which cannot be checked
    does: LostLink
    within: Reaction | None = None  #: time until it does
    tested: Text | None = None  #: when it was tried, in words
    note: Text | None = None  #: a remark

    @property
    def in_words(self) -> str:
        """What it does, as a page says it."""
        own = own_words(self.does)
        said = self.does if own is None else own
        return f"{said}, {self.note}" if self.note else said


class Style(Frozen):
    """The builder's own flying style where no log says it: mean power over hover power."""

    factor: StyleFactor | None = None  #: mean power over hover power, where no log says it
    words: Text | None = None  #: how it is flown


class Landing(Frozen):
    """Where a flight ends: volts of a cell, under load or rested, or a share of the charge.

    Without it, 20 % of the charge is kept.
    """

    volts: LandingCell | None = None  #: volts of a cell at which the flight ends
    #: whether these are read in flight (loaded, the usual) or some minutes after it (rested)
    volts_are: Literal["rested", "loaded"] | None = None
    share: ShareOfWhole | None = None  #: share of the charge that is left then


class Place(Frozen):
    """Where this build is flown, when it differs from the site's."""

    altitude: Altitude | None = None  #: height of the field above the sea
    temperature: AirTemperature | None = None  #: how warm the air is


class Setup(Frozen):
    """All that is set in software, in general words."""

    serial: tuple[SerialUse, ...] = ()  #: what hangs on which serial port
    switches: tuple[SwitchUse, ...] = ()  #: switches of the hand transmitter
    overlay: tuple[OverlayField, ...] = ()  #: figures in the picture
    alarms: tuple[Alarm, ...] = ()  #: volts and charge at which the pilot is warned, by battery
    rotation: RotationPlan | None = None  #: which motor sits where and turns which way
    #: how the software is told that the control board is mounted
    orientation: Orientation | None = None
    channel: ChannelUse | None = None  #: video channel and power
    control: ControlLink | None = None  #: the control link
    fail_safe: FailSafe | None = None  #: what happens when the link is lost
    software: Text | None = None  #: name and version, as free text
    software_for: Text | None = None  #: the board that the software is made for, as free text
    #: what the current sensor gives for each ampere, as it is set
    current_sensitivity: SensorSensitivity | None = None
    poles: Poles | None = None  #: magnets of the bell of a motor, as the software is told
    #: ratio of the divider that reads the battery volts, in words
    volts_divider: Text | None = None
    arming: tuple[Text, ...] = ()  #: what has to hold before the motors may start
    style: Style | None = None  #: the builder's own flying style
    landing: Landing | None = None  #: where a flight ends
    place: Place | None = None  #: where it is flown, when it differs from the site's place
    idle_throttle: ShareOfWhole | None = None  #: throttle at which the motors turn when armed
    #: speed over which it is not flown, or that is set as its limit
    top_speed: FlyingSpeed | None = None
    notes: tuple[Text, ...] = ()  #: further settings, in words
    link_secret: Text | None = None  #: never published; its presence is a fault
    home: Text | None = None  #: never published; its presence is a fault
