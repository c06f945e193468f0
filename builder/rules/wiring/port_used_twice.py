"""A serial port used twice.

Checks: the sending and the listening pad of one port are joined to one and the same device, and
each to one only.
Why: a port has one speed and one protocol; two devices on it disturb each other.
Example: a receiver on RX1 and a video unit's control on TX1.
Mend: give each device a port of its own.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.model.build import Contact, Fitted
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.wiring._nets import upset_by_plugs, where_joined

SEVERITY = Severity.FAULT
# What a pad of a port can talk with; anything else on it is found as what it is (sender to sender
# and the like).
_TALKS = {
    "sends": ("listens", "one-wire"),
    "listens": ("sends", "one-wire"),
    "one-wire": ("one-wire", "sends", "listens"),
}


def _ports(case: Case, fitted: Fitted, piece: int) -> dict[int, dict[str, Contact]]:
    """For each port of a piece the devices on it, each with the pad of the port that it is on."""
    nets, upset = case.results.netlist, upset_by_plugs(case)
    ports: dict[int, dict[str, Contact]] = {}
    for name, pad in fitted.part.pads.items():
        here = Contact(fitted.key, piece, name)
        if pad.serial is None or here not in nets.at or nets.of[here].name in upset:
            continue
        for other in nets.of[here].contacts:
            if other.board != here.board and case.build.pad(other).role in _TALKS.get(pad.role, ()):
                ports.setdefault(pad.serial, {}).setdefault(other.board, here)
    return ports


def check(case: Case) -> Iterator[Outcome]:
    for fitted in case.build.parts.values():
        for piece in fitted.pieces:
            for port, devices in _ports(case, fitted, piece).items():
                if len(devices) > 1:
                    last = list(devices.values())[-1]
                    yield Found(
                        f"Serial port {port} of {fitted.key} serves"
                        f" {' and '.join(sorted(devices))}.",
                        "Give each a port of its own.",
                        where_joined(case, [last], case.results.netlist.of[last]),
                    )
                else:
                    yield Judged()
