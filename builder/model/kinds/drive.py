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

    throttle: Share | None = None
    current: Current
    thrust: Force
    rpm: Rotation | None = None
    volts: Voltage | None = None


class BenchTable(Frozen):
    """One bench test of a motor with a propeller, and in which air."""

    propeller: Text
    volts: Voltage
    rows: tuple[BenchRow, ...]
    altitude: Length | None = None
    air: Temperature | None = None
    source: Text | None = None


class PeakCurrent(Frozen):
    """The largest current that the maker allows: for how long, on how many cells, with which propeller."""

    current: Current
    for_: Duration | None = Field(default=None, alias="for")
    at: CellsText | None = None
    propeller: Text | None = None


class Motor(Part):
    """A motor. `shaft_below` is how far the shaft stands out under the base."""

    KIND: ClassVar[str] = "motor"
    GROUP: ClassVar[str] = "propulsion"

    kv: SpeedConstant | None = None
    poles: Count | None = None
    resistance: SourcedResistance | None = None
    no_load: AtVoltsText | None = None
    peak: PeakCurrent | None = None
    thread: Text | None = None
    thread_depth: Length | None = None
    pattern: PatternText | None = None
    shaft: Length | None = None
    shaft_below: Length | None = None
    mount: Text | None = None
    mount_spacing: Length | None = None
    height: Length | None = None
    cells: CellsText | None = None
    phases: Count = 3
    winding_clear: Length | None = None
    bench: tuple[BenchTable, ...] = ()


class PackConnector(Frozen):
    """A connector by type and gender."""

    type: Text
    gender: Literal["plug", "socket"] | None = None
    continuous: Current | None = None
    short: Current | None = None


class Pack(Part):
    """A flight battery. `resistance` is per cell at 25 degC; full and landing volts are per cell."""

    KIND: ClassVar[str] = "pack"
    GROUP: ClassVar[str] = "pack"

    chemistry: Literal["lithium-polymer", "lithium-ion", "high-voltage lithium-polymer"] | None = None
    cells: CellsText | None = None
    capacity: Charge | None = None
    full: Voltage | None = None
    nominal: Voltage | None = None
    landing: Voltage | None = None
    resistance: SourcedResistance | None = None
    discharge: RateText | None = None
    charge: RateText | None = None
    lead: Length | None = None
    lead_gauge: GaugeText | None = None
    connector: PackConnector | None = None
    balance: Text | None = None
    bought: Day | None = None
    cycles: Count | None = None


class Capacitor(Part):
    """A capacitor across the supply."""

    KIND: ClassVar[str] = "capacitor"
    GROUP: ClassVar[str] = "electronics"

    capacitance: Capacitance | None = None
    volts: Voltage | None = None
    esr: Resistance | None = None
    ripple: Current | None = None
    lead: Length | None = None
    polarised: Yes = True
