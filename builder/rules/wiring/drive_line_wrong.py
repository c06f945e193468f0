"""A drive line missing or doubled.

Checks: each drive input of a speed controller whose channel carries a motor is joined to exactly one drive output.
Why: a motor without its line stands still and the aircraft turns over at take-off.
Example: a harness that leaves S3 without a partner.
Mend: join one drive output to each drive input.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.wiring._nets import named, where_joined, with_roles

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING


def check(case: Case) -> Iterator[Outcome]:
    nets, build = case.results.netlist, case.build
    used = {
        (c.board, build.pad(c).channel)
        for n in nets.nets
        if n.connected
        for c in with_roles(case, n, "phase")
        if build.pad(c).channel is not None
    }
    for contact in build.contacts:
        pad = build.pad(contact)
        if pad.role != "drive-in" or (contact.board, pad.channel) not in used:
            continue
        net = nets.of[contact]
        outputs = with_roles(case, net, "drive-out")
        inputs = with_roles(case, net, "drive-in")
        where = where_joined(case, [contact], net) if net.connected else build.parts[contact.part].where
        if not outputs:
            yield Found(
                f"No drive output reaches {contact} (channel {pad.channel}).", "Join one drive output to it.", where
            )
        elif len(outputs) > 1 or len(inputs) > 1:
            yield Found(f"One drive line joins {named(outputs + inputs)}.", "One output to one input.", where)
        else:
            yield Judged()
