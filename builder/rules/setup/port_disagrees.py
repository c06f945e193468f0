"""Serial setup disagrees with the wiring.

Checks: each serial port that the setup gives to a part of the build, against what the wires join to that port.
Why: software that listens on the wrong port hears nothing; a receiver without its port is a dead aircraft.
Example: port 1 serves the receiver, whose wires end at port 2.
Mend: set the port that is wired, or move the wires.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT


def check(case: Case) -> Iterator[Outcome]:
    known = {p.port for p in case.results.settings.ports}
    for i, use in enumerate(case.build.source.setup.serial):
        where = case.build.where("setup", "serial", i)
        if use.port not in known:
            if known:
                yield Found(f"The board has no serial port {use.port}.", "Name a port that it has.", where)
            else:
                yield NotJudged("serial ports of the control board unknown", where)
    for port in case.results.settings.ports:
        if port.stated not in case.build.parts:
            continue  # words, not a part: nothing to compare with
        where = case.build.where("setup", "serial", port.stated_at)
        wired = {name.split(".")[0] for name in port.wired}
        if port.stated in wired:
            yield Judged()
        else:
            to = ", ".join(sorted(wired)) or "nothing"
            message = f"Port {port.port} is set to serve {port.stated}, but is wired to {to}."
            yield Found(message, "Set the port that is wired, or move the wires.", where)
