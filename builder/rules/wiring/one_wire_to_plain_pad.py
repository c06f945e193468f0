"""One-wire control on a contact that cannot.

Checks: a one-wire control contact is joined to a contact that sends on a port which can talk both ways on one wire,
or to another one-wire contact; never to one that only listens.
Why: control on one wire is spoken and answered on the same pad; a port that cannot do it stays dumb.
Example: video.CTRL to controller.RX2.
Mend: move the wire to a sending pad of a port that the board lists as able to talk both ways.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.model.kinds import CombinedBoard, FlightController
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.wiring._nets import joined_nets, where_joined, with_roles

SEVERITY = Severity.FAULT


def check(case: Case) -> Iterator[Outcome]:
    for net in joined_nets(case):
        for control in with_roles(case, net, "one-wire"):
            others = [c for c in net.contacts if c.board != control.board and case.build.pad(c).role not in ("ground",)]
            for other in others:
                pad, part = case.build.pad(other), case.build.parts[other.part].part
                if pad.role == "one-wire":
                    yield Judged()
                elif pad.role != "sends":
                    hint = "Move it to a sending pad of a port that talks both ways on one wire."
                    yield Found(
                        f"{control} is one-wire control, and {other} ({pad.role}) cannot speak it.",
                        hint,
                        where_joined(case, [control], net),
                    )
                elif pad.half_duplex or (
                    isinstance(part, FlightController | CombinedBoard) and pad.serial in part.half_duplex
                ):
                    yield Judged()
                elif isinstance(part, FlightController | CombinedBoard) and part.half_duplex:
                    ports = ", ".join(map(str, part.half_duplex))
                    yield Found(
                        f"{control} is one-wire control, and port {pad.serial} of {other.part} is not one that can.",
                        f"Ports that can: {ports}.",
                        where_joined(case, [control], net),
                    )
                else:
                    yield NotJudged(
                        f"whether {other} can talk both ways on one wire", case.build.parts[other.part].shelf_where
                    )
