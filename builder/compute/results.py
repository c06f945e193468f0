"""All that is computed of one build, in the order in which it is computed. Frozen."""

from dataclasses import dataclass

from builder.compute.balance import Balance
from builder.compute.budget import Budget
from builder.compute.flight import Flight
from builder.compute.history import History
from builder.compute.joints import Joint
from builder.compute.limits import Margin
from builder.compute.mass import MassTable
from builder.compute.nets import Netlist
from builder.compute.pinout import Pinout
from builder.compute.power_gates import Gate
from builder.compute.power_path import PowerPath
from builder.compute.rails import Power
from builder.compute.screws import ScrewRow
from builder.compute.settings import Settings
from builder.compute.stack import Stack
from builder.compute.work_order import Cycle, Plan


@dataclass(frozen=True, eq=False)
class Results:
    """Results of `compute`, one field a file of this folder."""

    netlist: Netlist
    mass: MassTable
    margins: tuple[Margin, ...]
    budget: Budget
    balance: Balance | None
    power: Power
    flight: Flight
    pinout: Pinout
    gates: tuple[Gate, ...]
    joints: tuple[Joint, ...]
    order: Plan | Cycle
    settings: Settings
    screws: tuple[ScrewRow, ...]
    stacks: tuple[Stack, ...]
    path: PowerPath
    history: History
