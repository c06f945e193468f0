"""What any part may say electrically: pads, edges, sockets, fitted leads, supply and rails."""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, model_validator

from builder.model.base import Frozen
from builder.model.measures import BurstText, GaugeText, SizeText
from builder.model.quantities import (
    Count,
    Current,
    Length,
    Power,
    Resistance,
    Share,
    Text,
    Voltage,
    VoltageSpan,
    Yes,
)

Role = Literal[
    "ground",
    "supply",
    "draws",
    "sends",
    "listens",
    "one-wire",
    "clock",
    "data",
    "video-out",
    "video-in",
    "drive-out",
    "drive-in",
    "phase",
    "light-in",
    "light-out",
    "sink",
    "sense",
    "ring",
    "unconnected",
]
PadSide = Literal["top", "under", "edge"]
Copper = Literal["signal", "power", "plane"]
EdgeName = Literal["left", "right", "front", "rear"]


def names(value: Any) -> Any:
    """One name or a list of names, as a list."""
    return [value] if isinstance(value, str) else value


Names = Annotated[tuple[Text, ...], BeforeValidator(names)]


class Pad(Frozen):
    """A soldering place or a contact. `level` is the voltage it puts out, `tolerates` what it takes.

    `takes` is how many wires it takes; where it is not given the role decides (battery 3, ground 3, supply 2,
    signal 1: common practice, no source). `joined_to` names pads of the same part that copper joins inside.
    """

    role: Role
    serial: Count | None = None
    channel: Count | None = None
    rail: Text | None = None
    battery: Yes = False
    polarity: Literal["plus", "minus"] | None = None
    level: Voltage | None = None
    tolerates: Voltage | None = None
    speaks: Text | None = None
    inverted: Yes | None = None
    half_duplex: Yes | None = None
    accepts: VoltageSpan | None = None
    resistance: Resistance | None = None
    side: PadSide = "top"
    pitch: Length | None = None
    gap: Length | None = None
    pad_size: SizeText | None = None
    copper: Copper | None = None
    takes: Count | None = None
    joined_to: Names = ()
    diode: Yes = False
    paralleled: Yes = False
    sense_scale: Text | None = None
    wide_open: Yes = False
    limit: Current | None = None
    note: Text | None = None


class Socket(Frozen):
    """A plug or socket with its contacts in physical order, in a stated view."""

    contacts: tuple[Text, ...]
    seen: Text = "into the mating face, latch up"
    pitch: Length | None = None
    gender: Literal["plug", "socket"] | None = None
    latch: Literal["top", "under"] | None = None
    edge: EdgeName | None = None
    side: PadSide = "top"
    type: Text | None = None
    continuous: Current | None = None


class Sides(Frozen):
    """Pads along each edge in physical order: left and right from top to bottom, front and rear from left to right."""

    left: tuple[Text, ...] = ()
    right: tuple[Text, ...] = ()
    front: tuple[Text, ...] = ()
    rear: tuple[Text, ...] = ()


class Edges(Sides):
    """Pads along the edges of the top seen from above with the arrow up, and of the underside."""

    under: Sides = Sides()


class Leads(Frozen):
    """Wires that the maker fitted; `names` are the pads at their free ends, in the order of `colours`."""

    count: Count = 1
    gauge: GaugeText | None = None
    length: Length | None = None
    colours: tuple[Text, ...] = ()
    names: tuple[Text, ...] = ()
    enamelled: Yes = False


class Draw(Frozen):
    """Currents that a load takes; `peak` may say for how long. At the volts of `at`, or the lowest it accepts."""

    idle: Current | None = None
    typical: Current | None = None
    peak: BurstText | None = None
    start: Current | None = None
    power: Power | None = None

    @model_validator(mode="before")
    @classmethod
    def _one_figure(cls, value: Any) -> Any:
        return {"typical": value} if isinstance(value, str) else value


class Supply(Frozen):
    """How a part is fed: through which pad, which volts it accepts and what it draws."""

    pad: Text | None = None
    accepts: VoltageSpan | None = None
    draw: Draw = Draw()
    idle: Current | None = None
    at: Voltage | None = None
    constant_power: Yes | None = None
    from_balance_lead: Yes = False
    own_cell: Yes = False


class Rail(Frozen):
    """A supply that a board offers. `converter` says what makes it, `min_in` from what input volts it holds."""

    volts: Voltage | Literal["battery"]
    tolerance: Share | None = None
    limit: Current | None = None
    peak: BurstText | None = None
    converter: Literal["step-down", "step-up", "linear", "switch", "direct"] | None = None
    efficiency: Share | None = None
    dropout: Voltage | None = None
    min_in: Voltage | None = None
    fed_from: Text | None = None
    on_usb: Yes | None = None
    usb_limit: Current | None = None
    own_draw_inside: Yes | None = None
    switched_by: Text | None = None


class Electrical(Frozen):
    """The electrical fields that any kind of part may have."""

    pads: dict[str, Pad] = Field(default_factory=dict)
    edges: Edges = Edges()
    sockets: dict[str, Socket] = Field(default_factory=dict)
    leads: Leads | None = None
    supply: Supply | None = None
    rails: dict[str, Rail] = Field(default_factory=dict)


__all__ = ["Draw", "Edges", "Electrical", "Leads", "Names", "Pad", "Rail", "Role", "Sides", "Socket", "Supply", "names"]
