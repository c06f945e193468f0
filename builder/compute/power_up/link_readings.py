"""What is beeped where batteries are joined in series by the aircraft's own wires: the link between
one and the next, which a supply at the outer ends never tries.
"""

from builder.compute.circuit.nets import Netlist
from builder.compute.loops.battery_levels import battery_levels, ends_of_series, inner_links
from builder.compute.power_up.gate_checks import BEEPS
from builder.compute.power_up.gate_readings import GateReading
from builder.model.build import Build

_SHORT = "a beep is a short across one battery: it burns as soon as that is plugged in"
_OPEN = "no beep: the link is open, and nothing gets power"


def link_readings(build: Build, nets: Netlist) -> list[GateReading]:
    """Each link end to end, and from it to both ends of the series; none without a series."""
    ends = ends_of_series(build, nets)
    if ends is None:
        return []
    contacts = [c for p in battery_levels(build, nets).plugs for c in (p.minus, p.plus)]
    out = []
    for net in inner_links(build, nets):
        here = [c for c in contacts if nets.of[c].name == net.name]
        first = here[0]
        out += [GateReading((str(first), str(c)), BEEPS, _OPEN) for c in here[1:]]
        out += [GateReading((str(first), str(end)), "no beep", _SHORT) for end in ends]
    return out
