"""A supply joined to ground.

Checks: no net holds both a supply (or a battery plus) and a ground.
Why: a short: the first plug-in burns the wire, the board or the pack.
Example: camera.GND wired to controller.5V2.
Mend: move the wire to its right contact and measure before any power is put on.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.model.build import Contact
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.wiring._nets import joined_nets, named, where_joined, with_roles

SEVERITY = Severity.FAULT
SIGNAL = Signal.DANGER


def _plus(case: Case, contact: Contact) -> bool:
    pad = case.build.pad(contact)
    return pad.role in ("supply", "draws") or pad.polarity == "plus"


def check(case: Case) -> Iterator[Outcome]:
    for net in joined_nets(case):
        grounds = with_roles(case, net, "ground")
        live = [c for c in net.contacts if _plus(case, c)]
        if grounds and live:
            minority = min((grounds, live), key=len)
            yield Found(
                f"A supply meets ground: {named(live[:3])} and {named(grounds[:3])} are one net.",
                "Move the wire to its right contact, and measure before any power is put on.",
                where_joined(case, minority, net),
            )
        elif grounds or live:
            yield Judged()
