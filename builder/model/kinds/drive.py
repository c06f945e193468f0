"""Motors with their bench tables, packs, capacitors."""

from typing import ClassVar, Literal

from pydantic import Field

from builder.model.base import Frozen, SourcedResistance
from builder.model.measures import AtVoltsText, CellsText, GaugeText, PatternText, RateText
from builder.model.part import Part
from builder.model.quantities import (
    Capacitance,
    Charge,
    Count,
    Current,
    Day,
    Duration,
    Force,
    Length,
    Resistance,
    Rotation,
    Share,
    SpeedConstant,
    Temperature,
    Text,
    Voltage,
    Yes,
)


class BenchRow(Frozen):
    """One reading of a bench test: throttle, current, thrust, perhaps speed."""

    throttle: Share | None = None  #: share of full throttle
    current: Current  #: current of one motor
    thrust: Force  #: thrust of one propeller
    rpm: Rotation | None = None  #: its speed of rotation
    volts: Voltage | None = None  #: volts of the row, where they sag


class BenchTable(Frozen):
    """One bench test of a motor with a propeller, and in which air."""

    propeller: Text  #: the propeller, by its name on the shelf or in words
    volts: Voltage  #: volts of the test
    rows: tuple[BenchRow, ...]  #: the readings
    altitude: Length | None = None  #: height of the bench above the sea
    air: Temperature | None = None  #: how warm the air was
    source: Text | None = None  #: who tested


class PeakCurrent(Frozen):
    """The largest current that the maker allows: for how long, on how many cells, with which propeller."""

    current: Current  #: the current
    for_: Duration | None = Field(default=None, alias="for")  #: for how long
    at: CellsText | None = None  #: on how many cells
    propeller: Text | None = None  #: with which propeller


class Motor(Part):
    """A motor. `shaft_below` is how far the shaft stands out under the base."""

    KIND: ClassVar[str] = "motor"
    GROUP: ClassVar[str] = "propulsion"

    kv: SpeedConstant | None = None  #: speed constant without load
    poles: Count | None = None  #: magnets of the bell
    resistance: SourcedResistance | None = None  #: resistance between two phases
    no_load: AtVoltsText | None = None  #: current without propeller, and at which volts
    peak: PeakCurrent | None = None  #: largest current that the maker allows
    thread: Text | None = None  #: thread of its holes
    thread_depth: Length | None = None  #: depth of its holes
    pattern: PatternText | None = None  #: hole pattern of its base
    shaft: Length | None = None  #: diameter of the shaft
    shaft_below: Length | None = None  #: how far the shaft stands out under the base
    mount: Text | None = None  #: how a propeller sits on it
    mount_spacing: Length | None = None  #: distance of its propeller screws
    height: Length | None = None  #: height without shaft
    cells: CellsText | None = None  #: cells in series that it takes
    phases: Count = 3  #: 3, or 2 for a brushed motor
    winding_clear: Length | None = None  #: from the base to the winding
    bench: tuple[BenchTable, ...] = ()  #: bench tests with a propeller


class PackConnector(Frozen):
    """A connector by type and gender."""

    type: Text  #: name of its type
    gender: Literal["plug", "socket"] | None = None  #: plug or socket
    continuous: Current | None = None  #: current that it carries for long
    short: Current | None = None  #: current that it carries for a short time


class Pack(Part):
    """A flight battery. `resistance` is per cell at 25 degC; full and landing volts are per cell."""

    KIND: ClassVar[str] = "pack"
    GROUP: ClassVar[str] = "pack"

    #: what the cells are made of
    chemistry: Literal["lithium-polymer", "lithium-ion", "high-voltage lithium-polymer"] | None = None
    cells: CellsText | None = None  #: cells in series, and in parallel
    capacity: Charge | None = None  #: charge that it holds
    full: Voltage | None = None  #: volts of a full cell
    nominal: Voltage | None = None  #: nominal volts of a cell
    landing: Voltage | None = None  #: volts a cell under load at which a flight ends
    resistance: SourcedResistance | None = None  #: resistance of one cell at 25 degC
    discharge: RateText | None = None  #: highest current, as a multiple of the capacity or in A
    charge: RateText | None = None  #: highest charging current
    lead: Length | None = None  #: length of its lead
    lead_gauge: GaugeText | None = None  #: copper of its lead
    connector: PackConnector | None = None  #: connector on its lead
    balance: Text | None = None  #: its balance connector
    bought: Day | None = None  #: the day on which it was bought
    cycles: Count | None = None  #: how often it was charged


class Capacitor(Part):
    """A capacitor across the supply."""

    KIND: ClassVar[str] = "capacitor"
    GROUP: ClassVar[str] = "electronics"

    capacitance: Capacitance | None = None  #: its capacitance
    volts: Voltage | None = None  #: highest volts
    esr: Resistance | None = None  #: series resistance
    ripple: Current | None = None  #: ripple current that it takes
    lead: Length | None = None  #: length of its legs
    polarised: Yes = True  #: no if it may be fitted either way round
