"""The `setup:` group of a build: what is set after the iron is cold."""

from typing import Any, Literal

from pydantic import Field, model_validator

from builder.model.base import Frozen
from builder.model.quantities import (
    Angle,
    Count,
    CurrentScale,
    Duration,
    Frequency,
    Length,
    Power,
    Ratio,
    Temperature,
    Text,
    Voltage,
    Yes,
)

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
    """Which port serves what, and at which speech."""

    port: Count
    serves: Text
    speaks: Text | None = None
    inverted: Yes | None = None
    half_duplex: Yes | None = None
    rate: Text | None = None


class SwitchUse(Frozen):
    """A switch of the transmitter and what its positions do."""

    name: Text
    does: Text | None = None
    positions: tuple[Text, ...] = ()


class OverlayField(Frozen):
    """A figure that the picture carries, and where."""

    field: Text
    at: Text | None = None
    warns: Text | None = None

    @model_validator(mode="before")
    @classmethod
    def _text(cls, value: Any) -> Any:
        return {"field": value} if isinstance(value, str) else value


class RotationPlan(Frozen):
    """Which motor sits at which corner and which way it turns (seen from above).

    `outputs` says which drive output the software uses for a motor, where that is not the motor's own number.
    """

    corners: dict[str, Corner] = Field(default_factory=dict)
    outputs: dict[str, Count] = Field(default_factory=dict)
    turns: dict[str, Hand] = Field(default_factory=dict)
    props: Literal["in", "out"] | None = None
    note: Text | None = None


class Orientation(Frozen):
    """How the control board is told that it sits."""

    yaw: Angle | None = None
    face: Literal["up", "down"] = "up"
    pitch: Angle | None = None
    roll: Angle | None = None


class ChannelUse(Frozen):
    """The video channel: a band and number of the workspace's own table, and the power step."""

    band: Text
    number: Count | None = None
    power: Power | None = None
    range: Length | None = None


class ControlLink(Frozen):
    """The control link's power, range and band."""

    band: Text | None = None
    power: Power | None = None
    range: Length | None = None
    frequency: Frequency | None = None
    rate: Text | None = None


class FailSafe(Frozen):
    """What happens when the link is lost, and within which time."""

    does: Text
    within: Duration | None = None
    tested: Text | None = None


class Style(Frozen):
    """The builder's own flying style where no log says it: mean power over hover power."""

    factor: Ratio | None = None
    words: Text | None = None


class Landing(Frozen):
    """Where a flight ends: volts per cell under load."""

    volts: Voltage | None = None


class Place(Frozen):
    """Where this build is flown, when it differs from the site's."""

    altitude: Length | None = None
    temperature: Temperature | None = None


class Setup(Frozen):
    """All that is set in software, in general words."""

    serial: tuple[SerialUse, ...] = ()
    switches: tuple[SwitchUse, ...] = ()
    overlay: tuple[OverlayField, ...] = ()
    rotation: RotationPlan | None = None
    orientation: Orientation | None = None
    channel: ChannelUse | None = None
    control: ControlLink | None = None
    fail_safe: FailSafe | None = None
    software: Text | None = None
    board_target: Text | None = None
    current_scale: CurrentScale | None = None
    volts_scale: Text | None = None
    arming: tuple[Text, ...] = ()
    style: Style | None = None
    landing: Landing | None = None
    place: Place | None = None
    idle_throttle: Text | None = None
    notes: tuple[Text, ...] = ()
    binding_phrase: Text | None = Field(default=None, description="Never published; its presence is a fault.")
    home: Text | None = Field(default=None, description="Never published; its presence is a fault.")
