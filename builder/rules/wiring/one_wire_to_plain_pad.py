"""One-wire control on a contact that cannot.

Checks: a one-wire control contact is joined to a sending contact of a port that works both ways on
one wire, or to another one-wire contact. It is never joined to a contact that only listens.
Why: one-wire control asks and answers on the same pad. A port that cannot do it does not answer.
Example: video.CTRL to controller.RX2.
Mend: move the wire to a sending pad of a port that works both ways on one wire.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.circuit.nets import Net
from builder.diagnostics.finding import Severity
from builder.model.build import Contact
from builder.model.kinds import CombinedBoard, FlightController
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.wiring._nets import families, joined_nets, where_joined, with_roles

SEVERITY = Severity.FAULT


def _partner(case: Case, net: Net, control: Contact, other: Contact) -> Outcome:
    pad, part = case.build.pad(other), case.build.parts[other.part].part
    ports = part.half_duplex if isinstance(part, FlightController | CombinedBoard) else ()
    if (
        pad.role == "one-wire"
        or pad.half_duplex
        or (pad.serial is not None and pad.serial in ports)
    ):
        return Judged()
    if ports or pad.half_duplex is False:
        return Found(
            f"{control} is one-wire control, and port {pad.serial} of {other.part} is not one that"
            " can.",
            (
                f"Ports that can: {', '.join(map(str, ports))}."
                if ports
                else "Move it to a port that works both ways on one wire."
            ),
            where_joined(case, [control], net),
        )
    where = case.build.parts[other.part].shelf_where
    return NotJudged(f"whether {other} works both ways on one wire", where)


def check(case: Case) -> Iterator[Outcome]:
    for net in joined_nets(case):
        if families(case, net) != {"serial"}:
            continue
        for control in with_roles(case, net, "one-wire"):
            others = [c for c in net.contacts if c.board != control.board]
            able = [c for c in others if case.build.pad(c).role in ("one-wire", "sends")]
            if able:
                yield _partner(case, net, control, able[0])
            elif others:
                yield Found(
                    f"{control} is one-wire control, and {others[0]}"
                    f" ({case.build.pad(others[0]).role}) cannot use it.",
                    "Move it to a sending pad of a port that works both ways on one wire.",
                    where_joined(case, [control], net),
                )
