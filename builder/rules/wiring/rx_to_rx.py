"""Listener wired to listener.

Checks: contacts of different parts that all listen, on a net on which nothing sends.
Why: nobody sends; the link stays dead.
Example: receiver.RX joined to controller.RX1.
Mend: cross the two data lines.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.wiring._nets import boards_apart, joined_nets, named, where_joined, with_roles

SEVERITY = Severity.FAULT


def check(case: Case) -> Iterator[Outcome]:
    for net in joined_nets(case):
        listeners = with_roles(case, net, "listens")
        if not listeners:
            continue
        if boards_apart(listeners) and not with_roles(case, net, "sends", "one-wire"):
            hint = "Cross the data lines: each listener goes to a contact that sends."
            yield Found(
                f"All of these listen and nothing sends: {named(listeners)}.",
                hint,
                where_joined(case, listeners, net),
            )
        else:
            yield Judged()
