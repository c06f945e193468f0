"""A pad with more wires than it takes.

Checks: the number of wires that end at each contact against what the pad takes; a plug on it
counts as one. Where the pad does not say: battery 3, ground 3, supply 2, signal 1. A wire that
does not belong there at all is found by other rules.
Why: the joint grows until it bridges to its neighbour, and the first wire comes off while the last
goes on.
Example: three wires on one 5 V pad.
Mend: use another pad of the same net, or splice before the pad.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.model.source.electrical import Pad
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.wiring._nets import is_sound

SEVERITY = Severity.FAULT
_OF_SUPPLY = int(assumed("wires/pads-supply"))
_USUAL = {"ground": int(assumed("wires/pads-ground")), "supply": _OF_SUPPLY, "draws": _OF_SUPPLY}
_OTHER = int(assumed("wires/pads-other"))


def takes(pad: Pad, name: str) -> int:
    """How many wires a pad takes."""
    if pad.takes is not None:
        return pad.takes
    if pad.battery or pad.rail == "battery" or name.upper().startswith(("BAT", "VBAT")):
        return 3
    return _USUAL.get(pad.role, _OTHER)


def check(case: Case) -> Iterator[Outcome]:
    for contact, joins in case.results.netlist.at.items():
        wires = [j for j in joins if j.by == "wire"]
        if not wires or not is_sound(case, case.results.netlist.of[contact]):
            continue
        most = takes(case.build.pad(contact), contact.pad)
        if len(joins) > most:
            plugs = len(joins) - len(wires)
            what = f"{len(wires)} wires" if len(wires) > 1 else "A wire"
            beside = " and a plug" if plugs else ""
            beside += f" end at {contact}" if len(joins) > 1 else f" ends at {contact}"
            yield Found(
                f"{what}{beside}, which takes {most}.",
                "Use another pad of the same net, or splice before the pad.",
                wires[-1].where,
            )
        else:
            yield Judged()
