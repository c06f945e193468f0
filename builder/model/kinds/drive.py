"""Motors with their bench tables, packs, capacitors."""

from typing import ClassVar, Literal

from pydantic import Field

from builder.model.source.part import Part
from builder.model.values.base import CellResistance, Frozen, Short, WindingResistance
from builder.model.values.bounds_of_bodies import (
    AirTemperature,
    Altitude,
    Bore,
    Clearance,
    Cycles,
    Dated,
    Height,
    HolePattern,
    LeadLength,
    PeakTime,
    Phases,
    Poles,
    ScrewSpacing,
    ShareOfWhole,
    ThreadDepth,
    Thrust,
)
from builder.model.values.bounds_of_circuits import (
    CapacitorOhms,
    Capacity,
    CellRate,
    Farads,
    FullCell,
    Kv,
    LandingCell,
    Limit,
    LoadCurrent,
    NoLoadCurrent,
    NominalCell,
    RatedVolts,
    Revolutions,
    SeriesCells,
    TestVolts,
    WireGauge,
)
from builder.model.values.quantities import (
    Text,
    Yes,
)


class BenchRow(Frozen):
    """One reading of a bench test: throttle, current, thrust, perhaps speed."""

    throttle: ShareOfWhole | None = None  #: share of full throttle
    current: LoadCurrent  #: current of one motor
    thrust: Thrust  #: thrust of one propeller
    rpm: Revolutions | None = None  #: its speed of rotation
    volts: TestVolts | None = None  #: volts of the row, where they sag


class BenchTable(Frozen):
    """One bench test of a motor with a propeller, and in which air."""

    propeller: Text  #: the propeller, by its name on the shelf or in words
    volts: TestVolts  #: volts of the test
    rows: tuple[BenchRow, ...]  #: the readings
    altitude: Altitude | None = None  #: height of the bench above the sea
    air: AirTemperature | None = None  #: how warm the air was
    source: Text | None = None  #: who tested


class PeakCurrent(Short):
    """The largest current that the maker allows: for how long, on how many cells, with which
    propeller.
    """

    SHORT: ClassVar[str] = "current"

    current: Limit  #: the current
    for_: PeakTime | None = Field(default=None, alias="for")  #: for how long
    at: SeriesCells | None = None  #: on how many cells
    propeller: Text | None = None  #: with which propeller


class Motor(Part):
    """A motor. `shaft_below` is how far the shaft stands out under the base."""

    KIND: ClassVar[str] = "motor"
    GROUP: ClassVar[str] = "propulsion"

    kv: Kv | None = None  #: speed constant without load
    poles: Poles | None = None  #: magnets of the bell
    resistance: WindingResistance | None = None  #: resistance between two phases
    no_load: NoLoadCurrent | None = None  #: current without propeller, and at which volts
    peak: PeakCurrent | None = None  #: largest current that the maker allows
    thread: Text | None = None  #: thread of its holes
    thread_depth: ThreadDepth | None = None  #: depth of its holes
    pattern: HolePattern | None = None  #: hole pattern of its base
    shaft: Bore | None = None  #: diameter of the shaft
    shaft_below: Clearance | None = None  #: how far the shaft stands out under the base
    mount: Text | None = None  #: how a propeller sits on it
    mount_spacing: ScrewSpacing | None = None  #: distance of its propeller screws
    height: Height | None = None  #: height without shaft
    cells: SeriesCells | None = None  #: cells in series that it takes
    phases: Phases = 3  #: 3, or 2 for a brushed motor
    winding_clear: Clearance | None = None  #: from the base to the winding
    bench: tuple[BenchTable, ...] = ()  #: bench tests with a propeller


class PackConnector(Frozen):
    """A connector by type and gender."""

    type: Text  #: name of its type
    gender: Literal["plug", "socket"] | None = None  #: plug or socket
    continuous: Limit | None = None  #: current that it carries for long
    short: Limit | None = None  #: current that it carries for a short time


class Pack(Part):
    """A flight battery. `resistance` is per cell at 25 degC; full and landing volts are per cell."""

    KIND: ClassVar[str] = "pack"
    GROUP: ClassVar[str] = "pack"

    #: what the cells are made of
    chemistry: Literal["lithium-polymer", "lithium-ion", "high-voltage lithium-polymer"] | None = (
        None
    )
    cells: SeriesCells | None = None  #: cells in series, and in parallel
    capacity: Capacity | None = None  #: charge that it holds
    full: FullCell | None = None  #: volts of a full cell
    nominal: NominalCell | None = None  #: nominal volts of a cell
    landing: LandingCell | None = None  #: volts a cell under load at which a flight ends
    resistance: CellResistance | None = None  #: resistance of one cell at 25 degC
    discharge: CellRate | None = None  #: highest current, as a multiple of the capacity or in A
    charge: CellRate | None = None  #: highest charging current
    lead: LeadLength | None = None  #: length of its lead
    lead_gauge: WireGauge | None = None  #: copper of its lead
    connector: PackConnector | None = None  #: connector on its lead
    balance: Text | None = None  #: its balance connector
    bought: Dated | None = None  #: the day on which it was bought
    cycles: Cycles | None = None  #: how often it was charged


class Capacitor(Part):
    """A capacitor across the supply."""

    KIND: ClassVar[str] = "capacitor"
    GROUP: ClassVar[str] = "electronics"

    capacitance: Farads | None = None  #: its capacitance
    volts: RatedVolts | None = None  #: highest volts
    esr: CapacitorOhms | None = None  #: series resistance
    ripple: LoadCurrent | None = None  #: ripple current that it takes
    lead: LeadLength | None = None  #: length of its legs
    polarised: Yes = True  #: no if it may be fitted either way round
