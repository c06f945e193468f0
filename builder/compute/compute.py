"""Computes a build: an ordered list of plain functions, each taking the build and what stands above it."""

from builder.compute.circuit.nets import netlist
from builder.compute.circuit.pinout import pinout
from builder.compute.circuit.rails import power
from builder.compute.flight.flight import flight, log_style
from builder.compute.flight.style import FlyingStyle
from builder.compute.geometry.screws import screws
from builder.compute.geometry.stack import stacks
from builder.compute.joints.joints import joints
from builder.compute.money.budget import budget
from builder.compute.money.history import history
from builder.compute.order.work_order import work_order
from builder.compute.power.power_path import power_path
from builder.compute.power_up.power_gates import power_gates
from builder.compute.results import Results
from builder.compute.setup.settings import settings
from builder.compute.weight.balance import balance
from builder.compute.weight.limits import margins
from builder.compute.weight.mass import mass_table
from builder.model.build import Build


def _lent(build: Build) -> FlyingStyle | None:
    """The style of the base's log, for a variant that was not flown yet."""
    base = build.log_of
    return log_style(base, mass_table(base), power(base, netlist(base))) if base is not None else None


def compute(build: Build, lent: FlyingStyle | None = None) -> Results:
    """Everything that can be computed of a build. Pure: the same build gives the same results.

    `lent` is the style of flying by another log, for a build that has none; a variant has its base's by itself.
    """
    nets = netlist(build)
    mass = mass_table(build)
    rails = power(build, nets)
    gates = power_gates(build, nets, rails)
    soldered = joints(build, nets)
    pins = pinout(build, nets)
    flown = flight(build, mass, rails, lent or _lent(build))
    return Results(
        netlist=nets,
        mass=mass,
        margins=margins(build, mass),
        budget=budget(build),
        balance=balance(build, mass),
        power=rails,
        flight=flown,
        pinout=pins,
        gates=gates,
        joints=soldered,
        order=work_order(build, soldered, gates),
        settings=settings(build, pins),
        screws=screws(build),
        stacks=stacks(build),
        path=power_path(build, nets, rails, flown),
        history=history(build),
    )
