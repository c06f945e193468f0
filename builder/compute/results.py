"""All that is computed of one build, in the order in which it is computed. Frozen."""

from dataclasses import dataclass

from builder.compute.circuit.nets import Netlist
from builder.compute.circuit.pinout import Pinout
from builder.compute.circuit.rails import PowerPlan
from builder.compute.flight.flight import FlightFigures
from builder.compute.geometry.screws import ScrewRow
from builder.compute.geometry.stack import Stack
from builder.compute.joints.joints import Joint
from builder.compute.money.budget import Budget
from builder.compute.money.history import History
from builder.compute.order.work_order import Cycle, Plan
from builder.compute.power.power_path import PowerPath
from builder.compute.power_up.power_gates import Gate
from builder.compute.setup.settings import Settings
from builder.compute.weight.balance import Balance
from builder.compute.weight.limits import Margin
from builder.compute.weight.mass import MassTable


@dataclass(frozen=True, eq=False)
class Results:
    """Results of `compute`, one field a file of this folder."""

    netlist: Netlist
    mass: MassTable
    margins: tuple[Margin, ...]
    budget: Budget
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
