"""Computes a build: an ordered list of plain functions, each taking the build and what stands above
it.
"""

from builder.compute.choose.on_demand import OnDemand
from builder.compute.circuit.nets import netlist
from builder.compute.circuit.rails import power
from builder.compute.flight.flight import log_style
from builder.compute.flight.style import FlyingStyle
from builder.compute.money.budget import budget
from builder.compute.money.history import history
from builder.compute.money.shops import orders_of
from builder.compute.order.work_order import work_order
from builder.compute.power_up.power_gates import power_gates
from builder.compute.results import Assembly, Results
from builder.compute.weight.limits import margins
from builder.compute.weight.mass import MassTable, mass_table
from builder.model.build import Build


def _lent(build: Build) -> FlyingStyle | None:
    """The style of the base's log, for a variant whose own flights do not say it yet."""
    base = build.log_of
    if base is None:
        return None
    return log_style(base, mass_table(base), power(base, netlist(base)), _lent(base))


def on_demand(
    build: Build, lent: FlyingStyle | None = None, of_base: MassTable | None = None
) -> OnDemand:
    """How the parts of a build go together, each result worked out when somebody asks for it."""
    return OnDemand(build, lent or _lent(build), of_base)


def assemble(
    build: Build, lent: FlyingStyle | None = None, of_base: MassTable | None = None
) -> Assembly:
    """How the parts of a build go together, for rules alone: without order of work, gates, money
    and limits.

    Pure, as `compute`, which says what `lent` is; every field is the same as there. `of_base` are
    the weights of the build that a swap is made from.
    """
    made = on_demand(build, lent, of_base)
    return Assembly(
        netlist=made.netlist,
        mass=made.mass,
        balance=made.balance,
        power=made.power,
        flight=made.flight,
        pinout=made.pinout,
        joints=made.joints,
        settings=made.settings,
        screws=made.screws,
        stacks=made.stacks,
        path=made.path,
    )


def compute(build: Build, lent: FlyingStyle | None = None) -> Results:
    """Everything that can be computed of a build. Pure: the same build gives the same results.

    `lent` is the style of flying by another log, for a build that has none; a variant has its
    base's by itself.
    """
    made = assemble(build, lent)
    gates = power_gates(build, made.netlist, made.power)
    money = budget(build)
    return Results(
        netlist=made.netlist,
        mass=made.mass,
        margins=margins(build, made.mass),
        budget=money,
        orders=orders_of(build, money),
        balance=made.balance,
        power=made.power,
        flight=made.flight,
        pinout=made.pinout,
        gates=gates,
        joints=made.joints,
        order=work_order(build, made.joints, gates),
        settings=made.settings,
        screws=made.screws,
        stacks=made.stacks,
        path=made.path,
        history=history(build),
    )
