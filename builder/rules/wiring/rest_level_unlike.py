"""An inverted signal on a plain line.

Checks: the two ends of each data line, where both say whether the signal rests low (`inverted`).
The pad says it, and for a port of the board the setup. A port that is set to inverted is one that
can be.
Why: an inverted signal on a plain input is never understood; the receiver looks dead.
Example: a receiver that sends inverted, on a port that is set to plain.
Mend: set the port to what the other end sends, or take a port that can invert.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.diagnostics.where import Where
from builder.model.build import Build, Contact
from builder.model.kinds import CombinedBoard, FlightController
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.wiring._nets import boards_apart, joined_nets, with_roles

SEVERITY = Severity.FAULT


def _says(build: Build, contact: Contact) -> tuple[bool, Where] | None:
    """Whether a contact's signal rests low, and where that is said: the setup goes before the pad."""
    pad, fitted = build.pad(contact), build.parts[contact.part]
    board = isinstance(fitted.part, FlightController | CombinedBoard)
    for i, use in enumerate(build.source.setup.serial if board else ()):
        if use.port == pad.serial and use.inverted is not None:
            return use.inverted, build.where("setup", "serial", i, "inverted")
    if pad.inverted is None:
        return None
    return pad.inverted, fitted.shelf_where.at("pads", contact.pad, "inverted")


def _lines(case: Case) -> Iterator[Outcome]:
    for net in joined_nets(case):
        ends = with_roles(case, net, "sends", "listens", "one-wire")
        known = [(c, s) for c in ends if (s := _says(case.build, c)) is not None]
        if not boards_apart(c for c, _ in known):
            alone = [c for c, s in known if s[0]]
            if alone:
                what = f"whether the other end of the line from {alone[0]} is inverted too"
                yield NotJudged(what, case.build.where("setup", "serial"))
            continue
        low = [(c, s[1]) for c, s in known if s[0]]
        high = [(c, s[1]) for c, s in known if not s[0]]
        if not low or not high:
            yield Judged()
            continue
        (a, where), (b, there) = low[0], high[0]
        mine = where if where.file.endswith("build.yaml") else there
        other = there if mine == where else where
        text = f"{a} is inverted, and {b} at the other end of the line is not."
        yield Found(
            text, "Set both ends alike, or take a port that can invert.", mine, see=(other,)
        )


def _ports(case: Case) -> Iterator[Outcome]:
    board = next(iter(case.build.of_kind(FlightController, CombinedBoard)), None)
    part = board.part if board is not None else None
    can = part.inverts if isinstance(part, FlightController | CombinedBoard) else ()
    if board is None or not can:
        return
    for i, use in enumerate(case.build.source.setup.serial):
        if not use.inverted:
            continue
        if use.port in can:
            yield Judged()
            continue
        ports = ", ".join(str(p) for p in can)
        text = f"Port {use.port} is set to inverted; {board.key} inverts on {ports} only."
        where = case.build.where("setup", "serial", i, "inverted")
        hint = "Move the wires to a port that inverts."
        yield Found(text, hint, where, see=(board.shelf_where.at("inverts"),))


def check(case: Case) -> Iterator[Outcome]:
    yield from _lines(case)
    yield from _ports(case)
