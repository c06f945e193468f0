"""Two supplies joined.

Checks: no net holds two different supplies of different parts (or two rails of one part), unless a diode stands
between them or both may be paralleled.
Why: the higher one drives current into the other; one of the two converters dies.
Example: controller.5V1 joined to video.5V-OUT.
Mend: take one of the two off.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.model.kinds import Connector
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.wiring._nets import joined_nets, named, where_joined, with_roles

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING


def check(case: Case) -> Iterator[Outcome]:
    for net in joined_nets(case):
        feeding = []
        for contact in with_roles(case, net, "supply"):
            pad = case.build.pad(contact)
            if not pad.diode and not pad.paralleled:
                from_pack = pad.battery or pad.rail == "battery" or isinstance(case.build.parts[contact.part].part, Connector)
                feeding.append((contact, "pack" if from_pack else f"{contact.board} {pad.rail or contact.pad}"))
        sources = {source for _, source in feeding}
        if len(sources) > 1:
            first: dict[str, object] = {}
            for contact, source in feeding:
                first.setdefault(source, contact)
            contacts = [c for c, _ in feeding if c in first.values()]
            yield Found(
                f"Two supplies meet on one net: {named(contacts)}.",
                "Take one of the two off.",
                where_joined(case, contacts[-1:], net),
            )
        elif feeding:
            yield Judged()
