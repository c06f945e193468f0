"""Two supplies joined.

Checks: no net holds two different supplies, of two parts or of two rails of one part. Allowed are
supplies that copper inside the part joins, that a diode parts, or that may both be paralleled.
Why: the higher one drives current into the other; one of the two converters dies.
Example: controller.5V1 joined to video.5V-OUT.
Mend: take one of the two off.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.circuit.nets import Net
from builder.diagnostics.finding import Severity, Signal
from builder.model.build import Contact
from builder.model.kinds import Connector
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.wiring._nets import is_sound, joined_nets, named, where_joined, with_roles

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING


def _inside(net: Net) -> dict[Contact, Contact]:
    """For each contact of a net, the first of those that copper inside its part joins to it."""
    first = {c: c for c in net.contacts}
    for join in net.joins:
        if join.by == "inside":
            old, new = first[join.b], first[join.a]
            first = {c: new if f == old else f for c, f in first.items()}
    return first


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    for net in joined_nets(case):
        first = _inside(net)
        sources: dict[object, Contact] = {}
        for contact in with_roles(case, net, "supply"):
            pad, part = build.pad(contact), build.parts[contact.part].part
            rail = part.rails.get(pad.rail or "")
            passed_on = rail is not None and rail.converter == "direct" and rail.volts != "battery"
            if (
                pad.diode or pad.paralleled or passed_on
            ):  # a direct rail hands on what it is fed; it makes no volts
                continue
            pack = (
                pad.battery
                or pad.rail == "battery"
                or (rail is not None and rail.volts == "battery")
            )
            sources.setdefault(
                "pack" if pack or isinstance(part, Connector) else first[contact], contact
            )
        if len(sources) > 1:
            contacts = list(sources.values())
            yield Found(
                f"Two supplies meet on one net: {named(contacts)}.",
                "Take one of the two off.",
                where_joined(case, contacts[-1:], net),
            )
        elif with_roles(case, net, "supply") and is_sound(case, net):
            yield Judged()
