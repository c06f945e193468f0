"""A serial port that is set in two ways.

Checks: that each serial port is in the setup once. A port that is set to one wire can work on one
wire, where the board names those.
Why: the software takes one of the two, and the other part stays dead.
Example: port 2 for the receiver, and port 2 for the video transmitter.
Mend: give each part a port of its own.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.model.kinds import CombinedBoard, FlightController
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, Outcome

SEVERITY = Severity.FAULT


def _has_one_wire(case: Case, board: str, port: int) -> bool:
    """Whether a one-wire contact hangs on a port: then wiring/one-wire-to-plain-pad judges it."""
    build, nets = case.build, case.results.netlist
    pads = [c for c in build.contacts if c.part == board and build.pad(c).serial == port]
    others = [c for pad in pads for c in nets.of[pad].contacts if c.part != board]
    return any(build.pad(c).role == "one-wire" for c in others)


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    board = next(iter(build.of_kind(FlightController, CombinedBoard)), None)
    part = board.part if board is not None else None
    can = part.half_duplex if isinstance(part, FlightController | CombinedBoard) else ()
    first: dict[int, int] = {}
    for i, use in enumerate(build.source.setup.serial):
        at = build.where("setup", "serial", i)
        before = first.setdefault(use.port, i)
        if before != i:
            other = build.where("setup", "serial", before)
            text = f"Port {use.port} is set twice: to {build.source.setup.serial[before].serves}"
            text += f" and to {use.serves}."
            yield clash(text, "Give each part a port of its own.", at.at("port"), other.at("port"))
        elif (
            use.half_duplex
            and can
            and use.port not in can
            and board is not None
            and not _has_one_wire(case, board.key, use.port)
        ):
            ports = ", ".join(str(p) for p in can)
            text = (
                f"Port {use.port} is set to one wire; {board.key} takes one wire on {ports} only."
            )
            hint = "Take a port that can, or join both lines."
            yield clash(text, hint, at.at("half_duplex"), board.shelf_where.at("half_duplex"))
        else:
            yield Judged()
