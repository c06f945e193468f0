"""A serial port used twice.

Checks: the sending and the listening pad of one port are joined to one and the same device, and each to one only.
Why: a port has one speed and one speech; two devices on it disturb each other.
Example: a receiver on RX1 and a video unit's control on TX1.
Mend: give each device a port of its own.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.wiring._nets import where_joined

SEVERITY = Severity.FAULT
_DATA = ("sends", "listens", "one-wire")


def check(case: Case) -> Iterator[Outcome]:
    nets = case.results.netlist
    for fitted in case.build.parts.values():
        for piece in fitted.pieces:
            ports: dict[int, dict[str, list[str]]] = {}
            for contact in case.build.contacts:
                pad = case.build.pad(contact)
                if (contact.part, contact.piece) != (fitted.key, piece) or pad.serial is None or contact not in nets.at:
                    continue
                for other in nets.of[contact].contacts:
                    if other.board != contact.board and case.build.pad(other).role in _DATA:
                        ports.setdefault(pad.serial, {}).setdefault(other.board, []).append(contact.pad)
            for port, devices in ports.items():
                if len(devices) > 1:
                    contact = next(
                        c
                        for c in case.build.contacts
                        if c.part == fitted.key and case.build.pad(c).serial == port and c in nets.at
                    )
                    yield Found(
                        f"Serial port {port} of {fitted.key} serves {' and '.join(sorted(devices))}.",
                        "Give each a port of its own.",
                        where_joined(case, [contact], nets.of[contact]),
                    )
                else:
                    yield Judged()
