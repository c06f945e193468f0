"""Sender wired to sender.

Checks: two contacts that both send, on different parts and on one net.
Why: neither hears the other, and the two outputs work against each other; the link stays dead.
Example: receiver.TX joined to controller.TX1.
Mend: cross the two data lines, so that what one end sends the other listens to.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.wiring._nets import boards_apart, joined_nets, named, where_joined, with_roles

SEVERITY = Severity.FAULT


def check(case: Case) -> Iterator[Outcome]:
    for net in joined_nets(case):
        senders = with_roles(case, net, "sends")
        if len(senders) > 1 and boards_apart(senders):
            hint = "Cross the data lines: each sender goes to a contact that listens."
            yield Found(
                f"Both of these send: {named(senders)}.", hint, where_joined(case, senders, net)
            )
        elif senders:
            yield Judged()
