"""Contacts of one net whose roles do not belong together.

Checks: lines of different kinds joined by wires. Examples: an analogue sense line to a serial pad,
a video line to a data pad, a supply to a signal pad.
Why: the line is dead, or one of the two pads is harmed.
Example: esc.CUR (sense) to controller.RX3 (listens).
Mend: move the wire to a contact of its own kind.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.wiring._nets import FAMILY, boards_apart, families, joined_nets, where_joined
from builder.rules.wiring._polarity import reversed_pieces

SEVERITY = Severity.FAULT


def check(case: Case) -> Iterator[Outcome]:
    build, turned = case.build, reversed_pieces(case)
    for net in joined_nets(case):
        ends = [c for c in net.contacts if build.pad(c).role in FAMILY and c.board not in turned]
        kinds = {FAMILY[build.pad(c).role] for c in ends}
        if (
            kinds in ({"power", "ground"}, {"sink", "ground"})
            or len(families(case, net)) < 2
            or len(kinds) < 2
        ):
            yield Judged()
        elif boards_apart(ends):
            counts = {f: sum(1 for c in ends if FAMILY[build.pad(c).role] == f) for f in kinds}
            rare = min(kinds, key=lambda f: (counts[f], f))
            odd = [c for c in ends if FAMILY[build.pad(c).role] == rare]
            odd_first = odd + [c for c in ends if c not in odd]
            words = ", ".join(f"{c} ({build.pad(c).role})" for c in odd_first[:5])
            yield Found(
                f"These do not belong on one net: {words}.",
                "Move the wire to a contact of its own kind.",
                where_joined(case, odd, net),
            )
