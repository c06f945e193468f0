"""A drive line missing or doubled.

Checks: each drive input of a speed controller whose channel carries a motor is joined to exactly
one drive output.
Why: a motor without its line does not turn, and the aircraft turns over at take-off.
Example: a harness that leaves S3 without a partner.
Mend: join one drive output to each drive input.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.model.build import Contact
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.wiring._nets import families, named, upset_by_plugs, where_joined, with_roles

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING


def _used(case: Case) -> set[tuple[str, int | None]]:
    """Channels (board, number) that carry a motor; number None stands for any on that board."""
    nets, build = case.results.netlist, case.build
    wired = [c for c in build.contacts if build.pad(c).role == "phase" and c in nets.at]
    return {(c.board, build.pad(c).channel) for c in wired} | {(c.board, None) for c in wired}


def _input(case: Case, contact: Contact) -> Outcome | None:
    nets, build = case.results.netlist, case.build
    net, channel = nets.of[contact], build.pad(contact).channel
    if net.name in upset_by_plugs(case) or families(case, net) != {"drive"}:
        return None
    outputs, inputs = with_roles(case, net, "drive-out"), with_roles(case, net, "drive-in")
    where = where_joined(case, [contact], net) if net.connected else build.parts[contact.part].where
    if not outputs:
        number = f" (channel {channel})" if channel is not None else ""
        return Found(
            f"No drive output reaches {contact}{number}.", "Join one drive output to it.", where
        )
    if len(outputs) > 1 or len(inputs) > 1:
        return Found(
            f"One drive line joins {named(outputs + inputs)}.", "One output to one input.", where
        )
    return Judged()


def check(case: Case) -> Iterator[Outcome]:
    used = _used(case)
    for contact in case.build.contacts:
        pad = case.build.pad(contact)
        if pad.role == "drive-in" and (contact.board, pad.channel) in used:
            outcome = _input(case, contact)
            if outcome is not None:
                yield outcome
