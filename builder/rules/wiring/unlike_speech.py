"""Two ends that speak different things.

Checks: contacts of one data line of which at least two parts say what they speak; compared as text, case ignored.
Why: the line is right and nothing is understood.
Example: a receiver that speaks one thing on a port set to another.
Mend: set or choose the same speech at both ends.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.model.build import Contact
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.wiring._nets import boards_apart, joined_nets, where_joined, with_roles

SEVERITY = Severity.FAULT


def _speech(case: Case, contact: Contact) -> str | None:
    pad, part = case.build.pad(contact), case.build.parts[contact.part].part
    if pad.speaks is not None:
        return pad.speaks
    if pad.serial is not None:
        for use in case.build.source.setup.serial:
            if use.port == pad.serial and use.speaks is not None and contact.part in ("controller", "board", "fc"):
                return use.speaks
    return getattr(part, "speaks", None)


def check(case: Case) -> Iterator[Outcome]:
    for net in joined_nets(case):
        ends = with_roles(case, net, "sends", "listens", "one-wire")
        if not boards_apart(ends):
            continue
        said = {c: s for c in ends if (s := _speech(case, c)) is not None}
        if len({s.casefold().strip() for s in said.values()}) > 1 and boards_apart(said):
            words = "; ".join(f"{c} speaks {s!r}" for c, s in said.items())
            yield Found(
                f"The ends of one line speak different things: {words}.",
                "Set both ends to the same.",
                where_joined(case, said, net),
            )
        elif boards_apart(said):
            yield Judged()
        else:
            yield NotJudged(f"what the ends of {net.name} speak", where_joined(case, ends, net))
