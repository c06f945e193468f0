"""What stays on the bench or on the ground, what is carried, and all other kinds."""

from typing import ClassVar, Literal

from builder.model.source.part import Part
from builder.model.values.base import Frozen
from builder.model.values.bounds_of_bodies import IronTemperature, MeltingSpan, Parallel
from builder.model.values.bounds_of_circuits import (
    Capacity,
    Limit,
    PartPower,
    PartVolts,
    SeriesCells,
)
from builder.model.values.quantities import Text, Yes


class Payload(Part):
    """Something carried: an action camera, a sensor. Its mass stands on a line of its own."""

    KIND: ClassVar[str] = "payload"
    GROUP: ClassVar[str] = "payload"

    stores: Capacity | None = None  #: charge of its own battery


class Consumable(Part):
    """Solder, flux, sleeve, thread lock, tape."""

    KIND: ClassVar[str] = "consumable"
    GROUP: ClassVar[str] = "consumable"

    alloy: Text | None = None  #: alloy of a solder, such as Sn60Pb40
    melts: MeltingSpan | None = None  #: where it begins and ends to melt
    leaded: Yes | None = None  #: yes if it holds lead
    owned: Yes = False  #: yes if it is at hand


class Tips(Frozen):
    """Names of the builder's iron tips by class."""

    fine: Text | None = None  #: name of the fine tip
    medium: Text | None = None  #: name of the medium tip
    broad: Text | None = None  #: name of the broad tip


class Tool(Part):
    """A tool, bought once."""

    KIND: ClassVar[str] = "tool"
    GROUP: ClassVar[str] = "tool"

    owned: Yes = False  #: yes if it is at hand
    power: PartPower | None = None  #: power of an iron
    hottest: IronTemperature | None = None  #: hottest that an iron gets
    tips: Tips | None = None  #: tips of an iron by class
    current: Limit | None = None  #: highest current of a supply


class GroundGear(Part):
    """Charger, transmitter, goggles or screen, bags: bought once, stays on the ground."""

    KIND: ClassVar[str] = "ground-gear"
    GROUP: ClassVar[str] = "ground"

    owned: Yes = False  #: yes if it is at hand
    cells: SeriesCells | None = None  #: cells in series that a charger takes
    charge_current: Limit | None = None  #: highest charging current
    joins: Parallel | None = None  #: batteries that a board to charge on joins in parallel
    power: PartPower | None = None  #: highest power
    volts: PartVolts | None = None  #: its volts
    polarisation: Text | None = None  #: polarisation of its antenna
    gain: Text | None = None  #: gain of its antenna, in words
    #: which pictures goggles or a screen show
    picture: Literal["analogue", "digital", "both"] | None = None


class Other(Part):
    """Anything else."""

    KIND: ClassVar[str] = "other"
    GROUP: ClassVar[str] = "other"
