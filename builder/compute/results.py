"""All that is computed of one build, in the order in which it is computed; and the part of it that
is about fit. Frozen.
"""

from dataclasses import dataclass
from typing import Protocol

from builder.compute.circuit.nets import Netlist
from builder.compute.circuit.pinout import Pinout
from builder.compute.circuit.rails import PowerPlan
from builder.compute.flight.flight import FlightFigures
from builder.compute.geometry.screws import ScrewRow
from builder.compute.geometry.stack import Stack
from builder.compute.joints.joints import Joint
from builder.compute.money.budget import Budget
from builder.compute.money.history import History
from builder.compute.money.shops import Orders
from builder.compute.order.work_order import Cycle, Plan
from builder.compute.power.power_path import PowerPath
from builder.compute.power_up.gate import Gate
from builder.compute.setup.settings import Settings
from builder.compute.weight.balance import Balance
from builder.compute.weight.limits import Margin
from builder.compute.weight.mass import MassTable


class OfFit(Protocol):
    """What says how parts go together: all that most rules read. `Results` have it, `Assembly` has
    nothing else.
    """

    @property
    def netlist(self) -> Netlist:
        """What is joined to what."""

    @property
    def mass(self) -> MassTable:
        """Weights by line and in all."""

    @property
    def balance(self) -> Balance | None:
        """Centres of mass; None where no part has a place."""

    @property
    def power(self) -> PowerPlan:
        """Rails, and what each draws."""

    @property
    def flight(self) -> FlightFigures:
        """Currents and times on each pack."""

    @property
    def joints(self) -> tuple[Joint, ...]:
        """Joints, and the heat that they take."""

    @property
    def settings(self) -> Settings:
        """What is set in software."""

    @property
    def screws(self) -> tuple[ScrewRow, ...]:
        """Screws, and how deep they go."""

    @property
    def stacks(self) -> tuple[Stack, ...]:
        """Boards above each other."""

    @property
    def path(self) -> PowerPath:
        """Currents and drops of supply wires."""


@dataclass(frozen=True, eq=False)
class Assembly:
    """Results of `assemble`: how the parts of one build go together, without order of work, gates,
    money and limits.
    """

    netlist: Netlist
    mass: MassTable
    balance: Balance | None
    power: PowerPlan
    flight: FlightFigures
    pinout: Pinout
    joints: tuple[Joint, ...]
    settings: Settings
    screws: tuple[ScrewRow, ...]
    stacks: tuple[Stack, ...]
    path: PowerPath


@dataclass(frozen=True, eq=False)
class Results:
    """Results of `compute`, one field a file of this folder."""

    netlist: Netlist
    mass: MassTable
    margins: tuple[Margin, ...]
    budget: Budget
    orders: Orders
    balance: Balance | None
    power: PowerPlan
    flight: FlightFigures
    pinout: Pinout
    gates: tuple[Gate, ...]
    joints: tuple[Joint, ...]
    order: Plan | Cycle
    settings: Settings
    screws: tuple[ScrewRow, ...]
    stacks: tuple[Stack, ...]
    path: PowerPath
    history: History
