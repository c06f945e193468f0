"""Contacts of one net whose roles do not belong together.

Checks: signal contacts joined by wires: an analogue sense line into a serial pad, a video line into a data pad, a
drive line into a serial pad and the like.
Why: the line is dead, or one of the two pads is harmed.
Example: esc.CUR (sense) to controller.RX3 (listens).
Mend: move the wire to a contact of its own kind.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.wiring._nets import boards_apart, joined_nets, where_joined

SEVERITY = Severity.FAULT
_FAMILY = {
    "sends": "serial",
    "listens": "serial",
    "one-wire": "serial",
    "clock": "bus",
    "data": "bus",
    "video-out": "video",
    "video-in": "video",
    "drive-out": "drive",
    "drive-in": "drive",
    "phase": "phase",
    "light-in": "light",
    "light-out": "light",
    "sense": "sense",
    "ring": "ring",
    "supply": "power",
    "draws": "power",
    "ground": "ground",
    "sink": "sink",
}
_TOGETHER = ({"power", "ground"}, {"sink", "ground"})  # judged by rules of their own


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    for net in joined_nets(case):
        if all(j.by == "plug" for j in net.joins if j.by != "inside"):
            continue  # wiring/plug-joins-unlike judges plugs
        ends = [c for c in net.contacts if build.pad(c).role in _FAMILY]
        families = {_FAMILY[build.pad(c).role] for c in ends}
        if len(families) > 1 and boards_apart(ends) and families not in _TOGETHER:
            counts = {f: sum(1 for c in ends if _FAMILY[build.pad(c).role] == f) for f in families}
            rare = min(families, key=lambda f: (counts[f], f))
            odd = [c for c in ends if _FAMILY[build.pad(c).role] == rare]
            words = ", ".join(f"{c} ({build.pad(c).role})" for c in ends[:5])
            yield Found(
                f"These do not belong on one net: {words}.",
                "Move the wire to a contact of its own kind.",
                where_joined(case, odd, net),
            )
        elif ends:
            yield Judged()
