"""What any part may say electrically: pads, edges, sockets and fitted
leads; what feeds it is in feeding.py.
"""

import re
from typing import Annotated, Any, ClassVar, Literal

from pydantic import Field

from builder.model.source.feeding import Draw, Rail, Supply
from builder.model.values.base import Frozen
from builder.model.values.bounds_of_bodies import (
    Gap,
    OrdinalNumber,
    PadSize,
    PartSize,
    Pitch,
    ShareOfWhole,
    Tap,
    Ways,
    WireLength,
    WiresOnPad,
)
from builder.model.values.bounds_of_circuits import (
    Limit,
    PadVolts,
    PadVoltsSpan,
    SeriesResistance,
    WireGauge,
)
from builder.model.values.mistaken import wrong
from builder.model.values.plain_values import parse_text
from builder.model.values.quantities import Text, Yes, reads
from builder.model.values.words import SeenFrom

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
_LEAST, _MOST = 0x08, 0x77  # the others are reserved


def _address(value: Any) -> str:
    """An address of seven bits, as `0x1E` or as a number, always given back as `0x1e`."""
    text = parse_text(value)
    number = -1
    if re.fullmatch(r"0[xX][0-9a-fA-F]{1,2}|\d{1,3}", text):
        number = int(text, 0 if text[:2].lower() == "0x" else 10)
    if _LEAST <= number <= _MOST:
        return f"0x{number:02x}"
    problem = f"{text[:60]!r} is no address on such a bus."
    hint = "Write 0x08 to 0x77 (8 to 119), as the part's paper has it for seven bits."
    raise wrong("data/wrong-shape", problem, hint)


BusAddress = Annotated[
    str, reads(_address, "an address of seven bits", "0x1E", r"0[xX][0-9a-fA-F]{1,2}|\d{1,3}")
]
PadSide = Literal["top", "under", "edge"]
Copper = Literal["signal", "power", "plane"]
EdgeName = Literal["left", "right", "front", "rear"]


def names(value: Any) -> Any:
    """One name or a list of names, as a list."""
    return [value] if isinstance(value, str) else value


Names = Annotated[tuple[Text, ...], reads(names, "one name or a list of names")]


class Pad(Frozen):
    """A soldering place or a contact. `level` is the voltage it puts out, `tolerates` what it
    takes.

    `takes` is how many wires it takes; where it is not given the role decides (battery 3, ground 3,
    supply 2, signal 1: common practice, no source). `joined_to` names pads of the same part that
    copper joins inside.
    """

    MAY_LACK: ClassVar[frozenset[str]] = frozenset({"role"})

    role: Role  #: what the pad is for; where it is left out, the usual meaning of its print
    serial: OrdinalNumber | None = None  #: number of the serial port that it belongs to
    channel: OrdinalNumber | None = None  #: number of the motor or drive channel
    rail: Text | None = None  #: name of the rail that stands on it
    battery: Yes = False  #: yes if the battery's volts stand on it
    polarity: Literal["plus", "minus"] | None = None  #: which side of the supply it is
    tap: Tap | None = None  #: of a balance lead: cells that lie below it, 0 at its minus
    level: PadVolts | None = None  #: volts that it puts out
    tolerates: PadVolts | None = None  #: highest volts that it takes without damage
    speaks: Text | None = None  #: which protocol it sends or understands
    inverted: Yes | None = None  #: yes if its signal rests low
    half_duplex: Yes | None = None  #: yes if one wire serves both directions
    accepts: PadVoltsSpan | None = None  #: volts between which it works
    resistance: SeriesResistance | None = None  #: series resistance behind the pad
    side: PadSide = "top"  #: the side of the board on which it lies
    pitch: Pitch | None = None  #: distance to the next pad, middle to middle
    gap: Gap | None = None  #: bare board between it and the next pad
    pad_size: PadSize | None = None  #: its length and width
    copper: Copper | None = None  #: how much copper takes the heat away
    takes: WiresOnPad | None = None  #: how many wires it takes
    joined_to: Names = ()  #: pads of the same part that copper joins inside
    diode: Yes = False  #: yes if a diode lets current out of it only
    paralleled: Yes = False  #: yes if it may be joined with its like
    sensitivity: Text | None = None  #: what a measuring pad gives for each ampere or volt, in words
    wide_open: Yes = False  #: yes if it takes any volts up to the battery's
    limit: Limit | None = None  #: most current that it carries
    address: BusAddress | None = None  #: of a data contact: where its part answers on the bus
    note: Text | None = None  #: a remark shown in the pinout
    #: which of these were taken from its print and not looked up; no check of a danger passes by them
    assumed: Names = ()


class PadShape(Frozen):
    """What the pads along the edges of a board have in common, where a pad does not say its own."""

    side: PadSide | None = None  #: the side of the board on which they lie
    pitch: Pitch | None = None  #: distance of their middles
    gap: Gap | None = None  #: bare board between two of them
    pad_size: PadSize | None = None  #: length and width of each
    copper: Copper | None = None  #: how much copper takes the heat away


class Socket(Frozen):
    """A plug or socket with its contacts in physical order, in a stated view."""

    contacts: tuple[Text, ...]  #: names of its contacts in physical order
    seen: SeenFrom = "into the mating face, latch up"  #: from where the order is seen
    pitch: Pitch | None = None  #: distance of its contacts, middle to middle
    gender: Literal["plug", "socket"] | None = None  #: plug or socket
    latch: Literal["top", "under"] | None = None  #: the side on which its latch lies
    edge: EdgeName | None = None  #: the edge of the board on which it sits
    side: PadSide = "top"  #: the side of the board on which it sits
    type: Text | None = None  #: name of its type, so that plugs can be matched
    continuous: Limit | None = None  #: current that a contact carries for long
    #: where on its edge, counted as pads are; the middle if not said
    along: ShareOfWhole | None = None
    room: PartSize | None = None  #: free room before it that its plug needs: out, across and high


class Sides(Frozen):
    """Pads along each edge in physical order: left and right from top to bottom, front and rear
    from left to right.
    """

    left: tuple[Text, ...] = ()  #: pads of the left edge, top to bottom
    right: tuple[Text, ...] = ()  #: pads of the right edge, top to bottom
    front: tuple[Text, ...] = ()  #: pads of the front edge, left to right
    rear: tuple[Text, ...] = ()  #: pads of the rear edge, left to right


class Edges(Sides):
    """Pads along the edges of the top seen from above with the arrow up, and of the underside."""

    under: Sides = Sides()  #: the same for the underside, still seen from above


class Leads(Frozen):
    """Wires that the maker fitted; `names` are the pads at their free ends, in the order of
    `colours`.
    """

    count: Ways = 1  #: how many leads there are
    gauge: WireGauge | None = None  #: copper of one lead
    length: WireLength | None = None  #: length of one lead as it comes
    colours: tuple[Text, ...] = ()  #: colours of the leads, in the order of `names`
    names: tuple[Text, ...] = ()  #: pads at their free ends
    enamelled: Yes = False  #: yes if they are enamelled wire, which has to be tinned hot


class Electrical(Frozen):
    """The electrical fields that any kind of part may have."""

    pads: dict[str, Pad] = Field(default_factory=dict)  #: soldering places and contacts by name
    each_pad: PadShape = PadShape()  #: what the pads along its edges have in common
    edges: Edges = (
        Edges()
    )  #: pads along the edges in physical order, seen from above with the arrow up
    sockets: dict[str, Socket] = Field(default_factory=dict)  #: plugs and sockets by name
    leads: Leads | None = None  #: wires that the maker fitted
    supply: Supply | None = None  #: how it is fed and what it draws
    rails: dict[str, Rail] = Field(default_factory=dict)  #: supplies that it offers, by name


__all__ = [
    "Draw",
    "Edges",
    "Electrical",
    "Leads",
    "Names",
    "Pad",
    "PadShape",
    "Rail",
    "Role",
    "Sides",
    "Socket",
    "Supply",
    "names",
]
