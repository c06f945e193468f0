"""What joins the parts of a build, as a person writes it: wires, plugs, screws."""

from typing import Literal

from pydantic import Field

from builder.model.values.base import Frozen
from builder.model.values.bounds_of_bodies import Pieces, Thickness, ThreadDepth, WireLength
from builder.model.values.bounds_of_circuits import WireGauge
from builder.model.values.quantities import Text, Yes


class Wire(Frozen):
    """A wire between two contacts; `lead: fitted` is one that a maker fitted to the part named in
    `from`.
    """

    from_: Text = Field(alias="from")  #: where it starts: part.pad
    to: Text  #: where it ends: part.pad
    colour: Text | None = None  #: colour of its sleeve
    gauge: WireGauge | None = None  #: its copper
    length: WireLength | None = None  #: its length as cut
    route: WireLength | None = None  #: the way that it takes, if longer than the straight line
    #: fitted, if it is a lead that the maker fitted to the part in `from`
    lead: Literal["fitted"] | None = None
    trim_to: WireLength | None = None  #: the length to which a fitted lead is cut
    twisted: Yes = False  #: yes if it is twisted with its fellow
    note: Text | None = None  #: a remark


class Plug(Frozen):
    """Two sockets joined by a cable; which contact reaches which is derived from how it lies."""

    from_: Text = Field(alias="from")  #: one socket: part.socket
    to: Text  #: the other: part.socket
    #: how the cable lies, or contact by contact
    cable: Literal["straight", "reversed"] | dict[str, Text] | None = None
    use: Text | None = None  #: the cable on the shelf
    note: Text | None = None  #: a remark


class Layer(Frozen):
    """One layer that a screw passes through."""

    what: Text  #: what the screw passes through
    thick: Thickness  #: how thick it is


class Screw(Frozen):
    """Screws of one place: what they pass through, what they grip, what lies behind their end."""

    place: Text  #: name of the place
    use: Text  #: the screw on the shelf
    count: Pieces  #: how many of them
    through: tuple[Layer, ...] = ()  #: layers from the head on
    into: Text | None = None  #: what it grips
    depth: ThreadDepth | None = None  #: depth of thread there
    #: what its end points at: pack, pack bay (the battery's), board, wire, nothing, a part or battery of this build, or 'other: …'
    behind: Text | None = None
    lock: Yes | None = None  #: yes if thread lock goes on it, no if none does
    washer: Thickness | None = None  #: thickness of washers under the head
    note: Text | None = None  #: a remark
