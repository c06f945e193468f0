"""Serial setup disagrees with the wiring.

Checks: each serial port that the setup gives to a part of the build, against what the wires join to
that port. Where the setup lists ports, each port to which a part is soldered is among them: else a
remark. What comes along in a harness may stay unused.
Why: software that listens on the wrong port hears nothing; a receiver without its port is a dead
aircraft.
Example: port 1 serves the receiver, whose wires end at port 2.
Mend: set the port that is wired, or move the wires.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.setup.settings import Port
from builder.diagnostics.finding import Severity
from builder.model.build import Build, Contact
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.wiring._nets import FAMILY, families

SEVERITY = Severity.FAULT


def _is_serial(build: Build, contact: Contact) -> bool:
    return FAMILY.get(build.pad(contact).role) == "serial"


def _astray(case: Case, part: str) -> bool:
    """Whether a data contact of the part is wired to something that is no data line."""
    build, nets = case.build, case.results.netlist
    ends = [c for c in build.contacts if c.part == part and c in nets.at]
    serial = [c for c in ends if _is_serial(build, c)]
    return any(families(case, nets.of[c]) != {"serial"} for c in serial)


def _split(case: Case, port: Port) -> tuple[Contact, Contact] | None:
    """A data contact of the part on another port of the board, while this port's pad for it is left
    free.
    """
    build, nets = case.build, case.results.netlist
    served = {u.port for u in build.source.setup.serial if u.serves == port.stated}
    pads = [c for c in build.contacts if c.part == port.board and build.pad(c).serial is not None]
    free = {
        build.pad(c).role for c in pads if build.pad(c).serial == port.port and c not in nets.at
    }
    for own in (
        c
        for c in build.contacts
        if c.part == port.stated and build.pad(c).role in ("sends", "listens")
    ):
        for other in (
            c
            for c in nets.of[own].contacts
            if c in pads and build.pad(c).role != build.pad(own).role
        ):
            number = build.pad(other).serial
            of_port = [pad for pad in pads if build.pad(pad).serial == number]
            joined = [c for pad in of_port for c in nets.of[pad].contacts]
            on_it = {c.part for c in joined if _is_serial(build, c)}
            if (
                number not in served
                and build.pad(other).role in free
                and on_it == {port.board, port.stated}
            ):
                return (
                    own,
                    other,
                )  # a port that serves another part as well is wiring/port-used-twice
    return None


def _soldered(build: Build, port: Port) -> set[str]:
    """Parts with a wire on a contact of this port."""
    ends = [pair for run in build.wires for pair in ((run.start, run.end), (run.end, run.start))]
    at_port = [
        other
        for own, other in ends
        if own.part == port.board and build.pad(own).serial == port.port
    ]
    return {other.part for other in at_port if _is_serial(build, other)}


def _unlisted(case: Case) -> Iterator[Outcome]:
    """Ports to which a part is soldered, and of which the setup says nothing while it lists others."""
    build = case.build
    listed = {use.port for use in build.source.setup.serial}
    served = {use.serves for use in build.source.setup.serial}
    for port in case.results.settings.ports if listed else ():
        parts = sorted(_soldered(build, port))
        if port.port in listed or not parts or served & set(parts):
            continue  # a part that is set at another port is found there
        yield Found(
            f"{' and '.join(parts)} is wired to port {port.port}, and the setup does not list that port.",
            "Write under serial what the port serves.",
            build.where("setup", "serial"),
            Severity.REMARK,
            see=(build.parts[parts[0]].where,),
        )


def check(case: Case) -> Iterator[Outcome]:
    yield from _unlisted(case)
    known = {p.port for p in case.results.settings.ports}
    for i, use in enumerate(case.build.source.setup.serial):
        where = case.build.where("setup", "serial", i)
        if use.port not in known:
            if known:
                yield Found(
                    f"The board has no serial port {use.port}.", "Name a port that it has.", where
                )
            else:
                yield NotJudged("serial ports of the control board unknown", where)
    for port in case.results.settings.ports:
        if port.stated not in case.build.parts:
            if port.stated and port.wired:
                at = case.build.where("setup", "serial", port.stated_at, "serves")
                yield NotJudged(f"which part {port.stated!r} at port {port.port} is", at)
            continue  # words, not a part: nothing to compare with
        where = case.build.where("setup", "serial", port.stated_at, "port")
        wired = {name.split(".")[0] for name in port.wired}
        split = _split(case, port)
        if split is not None:
            message = (
                f"Port {port.port} is set to serve {port.stated}, whose {split[0].pad} is wired to"
                f" {split[1]}."
            )
            yield Found(message, "Wire both data contacts to one port.", where)
        elif port.stated in wired:
            yield Judged()
        elif _astray(case, port.stated):
            continue  # a data wire on a contact of another kind is wiring/roles-do-not-fit
        else:
            to = ", ".join(sorted(wired)) or "nothing"
            message = f"Port {port.port} is set to serve {port.stated}, but is wired to {to}."
            yield Found(message, "Set the port that is wired, or move the wires.", where)
