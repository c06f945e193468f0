"""A plug that joins unlike contacts.

Checks: each pair that a plugged cable joins, derived from the physical order of both sockets and from how the cable
lies: supply to supply, ground to ground, output to input.
Why: a reversed or shifted harness puts the pack's volts on a signal contact; it is a leading killer of boards.
Example: a straight cable between sockets whose orders run against each other.
Mend: take the cable that lies the other way, or re-pin one end; ring every contact through before it is plugged.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.contacts import plug_joins
from builder.diagnostics.finding import Severity, Signal
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_FITS = {
    frozenset({"ground"}),
    frozenset({"supply"}),
    frozenset({"supply", "draws"}),
    frozenset({"draws"}),
    frozenset({"sends", "listens"}),
    frozenset({"drive-out", "drive-in"}),
    frozenset({"one-wire", "sends"}),
    frozenset({"one-wire"}),
    frozenset({"clock"}),
    frozenset({"data"}),
    frozenset({"video-out", "video-in"}),
    frozenset({"sense"}),
    frozenset({"phase"}),
    frozenset({"light-out", "light-in"}),
    frozenset({"sink"}),
    frozenset({"ring"}),
}
_HARMLESS = {"unconnected"}


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    for join in build.plugs:
        made = plug_joins(build, join)
        if not made:
            yield NotJudged(f"how the cable between {join.plug.from_} and {join.plug.to} lies", join.where)
            continue
        wrong = []
        for pair in made:
            roles = {build.pad(pair.a).role, build.pad(pair.b).role}
            if not roles & _HARMLESS and frozenset(roles) not in _FITS:
                wrong.append(pair)
        if wrong:
            shown = "; ".join(f"{p.a} ({build.pad(p.a).role}) to {p.b} ({build.pad(p.b).role})" for p in wrong[:4])
            yield Found(
                f"This plug joins unlike contacts: {shown}{' and more' if len(wrong) > 4 else ''}.",
                "Take a cable that lies the other way, or re-pin one end; ring it through first.",
                join.where,
            )
        else:
            yield Judged()
