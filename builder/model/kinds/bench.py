"""What stays on the bench or on the ground, what is carried, and all other kinds."""

from typing import ClassVar

from builder.model.base import Frozen
from builder.model.measures import CellsText
from builder.model.part import Part
from builder.model.quantities import Charge, Current, Power, Temperature, TemperatureSpan, Text, Voltage, Yes


class Payload(Part):
    """Something carried: an action camera, a sensor. Its mass stands on a line of its own."""

    KIND: ClassVar[str] = "payload"
    GROUP: ClassVar[str] = "payload"

    stores: Charge | None = None


class Consumable(Part):
    """Solder, flux, sleeve, thread lock, tape."""

    KIND: ClassVar[str] = "consumable"
    GROUP: ClassVar[str] = "consumable"

    alloy: Text | None = None
    melts: TemperatureSpan | None = None
    leaded: Yes | None = None
    owned: Yes = False


class Tips(Frozen):
    """Names of the builder's iron tips by class."""

    fine: Text | None = None
    medium: Text | None = None
    broad: Text | None = None


class Tool(Part):
    """A tool, bought once."""

    KIND: ClassVar[str] = "tool"
    GROUP: ClassVar[str] = "tool"

    owned: Yes = False
    power: Power | None = None
    hottest: Temperature | None = None
    tips: Tips | None = None
    current: Current | None = None


class GroundGear(Part):
    """Charger, transmitter, goggles or screen, bags: bought once, stays on the ground."""

    KIND: ClassVar[str] = "ground-gear"
    GROUP: ClassVar[str] = "ground"

    owned: Yes = False
    cells: CellsText | None = None
    charge_current: Current | None = None
    power: Power | None = None
    volts: Voltage | None = None
    polarisation: Text | None = None
    gain: Text | None = None


class Other(Part):
    """Anything else."""

    KIND: ClassVar[str] = "other"
    GROUP: ClassVar[str] = "other"
