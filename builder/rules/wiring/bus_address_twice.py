"""Two devices at one address of a bus.

Checks: on each data line of a bus that more than one device hangs on, the address of each (`address`
of its data contact).
Why: both answer at once, and the board understands neither.
Example: two compasses of one make on the same clock and data lines.
Mend: give one of them its other address, if it has one, or leave one away.
Source: UM10204, specification of the two-wire bus: an address belongs to one device (from memory)
"""

from collections.abc import Iterator

from builder.compute.circuit.nets import Net
from builder.diagnostics.finding import Severity
from builder.model.build import Build, Contact
from builder.model.kinds import CombinedBoard, FlightController
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, NotJudged, Outcome
from builder.rules.wiring._nets import is_sound, joined_nets, with_roles

SEVERITY = Severity.FAULT


def _devices(case: Case, net: Net) -> list[Contact]:
    """Data contacts of parts that answer; a control board asks."""
    asks = FlightController | CombinedBoard
    ends = with_roles(case, net, "data")
    return [c for c in ends if not isinstance(case.build.parts[c.part].part, asks)]


def _bus(build: Build, devices: list[Contact]) -> Iterator[Outcome]:
    seen: dict[str, Contact] = {}
    for contact in devices:
        at = build.parts[contact.part].shelf_where.at("pads", contact.pad)
        address = build.pad(contact).address
        if address is None:
            yield NotJudged(f"address of {contact.board} on its bus", at)
            continue
        first = seen.setdefault(address, contact)
        if first == contact:
            yield Judged()
            continue
        text = f"{first} and {contact} answer at the address {address} of one bus."
        hint = "Give one of them its other address, or leave one away."
        other = build.parts[first.part].shelf_where.at("pads", first.pad, "address")
        yield clash(text, hint, at.at("address"), other)


def check(case: Case) -> Iterator[Outcome]:
    for net in joined_nets(case):
        devices = _devices(case, net)
        if len(devices) > 1 and is_sound(case, net):
            yield from _bus(case.build, devices)
