"""A switched supply whose switch nobody has, or that feeds what must stay on.

Checks: that the setup has the switch of each rail that names one (`switched_by`). No control board,
receiver or speed controller is fed through it.
Why: a receiver that a switch puts out in flight is an aircraft without control; a switch that is
not set up leaves the camera dark.
Example: the receiver on a rail that a switch of the transmitter turns off.
Mend: feed it from a rail that is always on, and set up the switch.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.circuit.rails import RailRow
from builder.diagnostics.finding import Severity, Signal
from builder.diagnostics.where import Where
from builder.model.build import Build
from builder.model.kinds import FlightController, Receiver, SpeedController
from builder.rules.compare import clash
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_ALWAYS_ON = (FlightController, Receiver, SpeedController)


def _plain(text: str | None) -> str:
    return " ".join((text or "").casefold().split())


def _switch(build: Build, board: str, name: str, by: str, at: Where) -> Outcome:
    switches = build.source.setup.switches
    known = {_plain(s.name) for s in switches} | {_plain(s.does) for s in switches}
    part = build.parts[board].part
    own = {_plain(n) for n in (*part.pads, *part.rails, *build.parts)}
    if _plain(by) in known | own:
        return Judged()
    if not switches:
        return NotJudged(
            f"the switches of the hand transmitter: one is {by!r}", build.where("setup")
        )
    text = f"Rail {name} of {board} is switched by {by!r}, and no switch of the setup is called so."
    hint = "Set up the switch, or name the one that does it."
    return clash(text, hint, build.where("setup", "switches"), at)


def _fed(build: Build, row: RailRow, at: Where) -> Iterator[Outcome]:
    for supplied in row.supplied:
        fitted = build.parts[supplied.load.pad.part]
        if not isinstance(fitted.part, _ALWAYS_ON):
            yield Judged()
            continue
        text = f"{fitted.key} is fed from rail {row.source.name}, which a switch turns off."
        yield Found(text, "Feed it from a rail that is always on.", fitted.where, see=(at,))


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    for fitted in build.parts.values():
        for name, rail in fitted.part.rails.items():
            if rail.switched_by is None:
                continue
            at = fitted.shelf_where.at("rails", name, "switched_by")
            yield _switch(build, fitted.key, name, rail.switched_by, at)
            for row in case.results.power.rails:
                mine = row.source.part.split(".")[0] == fitted.key and row.source.name == name
                yield from _fed(build, row, at) if mine else ()
