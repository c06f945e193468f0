"""What is beeped where batteries are joined in series by the aircraft's own wires: the link between
one and the next, which a supply at the outer ends never tries.
"""

from builder.compute.circuit.nets import Netlist
from builder.compute.loops.series import ends_of_series, inner_links
from builder.compute.power_up.gate_checks import BEEPS
from builder.compute.power_up.gate_readings import GateReading

_SHORT = "a beep is a short across one battery: it burns as soon as that is plugged in"
_OPEN = "no beep: the link is open, and nothing gets power"


def link_readings(nets: Netlist) -> list[GateReading]:
    """Each link end to end, and from it to both ends of the series; none without a series."""
    ends = ends_of_series(nets)
    if ends is None:
        return []
    contacts = [c for p in nets.levels.plugs for c in (p.minus, p.plus)]
    out = []
    for net in inner_links(nets):
        here = [c for c in contacts if nets.of[c].name == net.name]
        first = here[0]
        out += [GateReading((str(first), str(c)), BEEPS, _OPEN) for c in here[1:]]
        out += [GateReading((str(first), str(end)), "no beep", _SHORT) for end in ends]
    return out
