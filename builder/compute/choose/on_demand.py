"""How the parts of a build go together, each figure worked out when a rule asks for it.

`assemble` asks for all of them. A search asks for few: a build that breaks a rule of fit is refused
before it is flown.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from builder.compute.circuit.nets import Netlist, netlist
from builder.compute.circuit.pinout import Pinout, pinout
from builder.compute.circuit.rails import PowerPlan, power
from builder.compute.figures.figure import Figure, MaybeFigure
from builder.compute.flight.flight import FlightFigures, flight, time_in_air
from builder.compute.flight.style import FlyingStyle
from builder.compute.geometry.screws import ScrewRow, screws
from builder.compute.geometry.stack import Stack, stacks
from builder.compute.joints.joints import Joint, joints
from builder.compute.power.power_path import PowerPath, power_path
from builder.compute.setup.settings import Settings, settings
from builder.compute.weight.balance import Balance, balance
from builder.compute.weight.mass import MassTable, flying_weights, mass_table
from builder.model.build import Build


@dataclass(frozen=True, eq=False)
class OnDemand:
    """Results for rules of one build; `lent` is the style of flying by the log of the build that it
    is made from, `of_base` the weights of that build, where they stand already.
    """

    build: Build
    lent: FlyingStyle | None
    of_base: MassTable | None = None

    @cached_property
    def netlist(self) -> Netlist:
        """What is joined to what."""
        return netlist(self.build)

    @cached_property
    def mass(self) -> MassTable:
        """Weights by line and in all."""
        return mass_table(self.build, self.of_base)

    @cached_property
    def all_up(self) -> Mapping[str, Figure]:
        """Flying weights by battery: all that a flight asks of the weights."""
        if "mass" in vars(self):
            return self.mass.all_up
        return flying_weights(self.build, self.of_base)

    def time(self, pack: str) -> MaybeFigure:
        """The time in the air on a battery, of a build that has no log of its own."""
        return time_in_air(self.build, self.all_up, self.power, self.lent, pack)

    @cached_property
    def balance(self) -> Balance | None:
        """Centres of mass."""
        return balance(self.build, self.mass)

    @cached_property
    def power(self) -> PowerPlan:
        """Rails, and what each draws."""
        return power(self.build, self.netlist)

    @cached_property
    def pinout(self) -> Pinout:
        """Contacts in physical order."""
        return pinout(self.build, self.netlist)

    @cached_property
    def flight(self) -> FlightFigures:
        """Currents and times on each battery."""
        return flight(self.build, self.all_up, self.power, self.lent)

    @cached_property
    def joints(self) -> tuple[Joint, ...]:
        """Joints, and the heat that they take."""
        return joints(self.build, self.netlist)

    @cached_property
    def settings(self) -> Settings:
        """What is set in software."""
        return settings(self.build, self.pinout)

    @cached_property
    def screws(self) -> tuple[ScrewRow, ...]:
        """Screws, and how deep they go."""
        return screws(self.build)

    @cached_property
    def stacks(self) -> tuple[Stack, ...]:
        """Boards above each other."""
        return stacks(self.build)

    @cached_property
    def path(self) -> PowerPath:
        """Currents and drops of supply wires."""
        return power_path(self.build, self.netlist, self.power, self.flight)
