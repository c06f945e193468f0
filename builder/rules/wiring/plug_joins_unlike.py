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
from builder.rules.wiring._nets import is_live, unlike

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    for join in build.plugs:
        wrong = unlike(build, join)
        if not plug_joins(build, join):
            yield NotJudged(f"how the cable between {join.plug.from_} and {join.plug.to} lies", join.where)
        elif wrong:
            shown = "; ".join(f"{p.a} ({build.pad(p.a).role}) to {p.b} ({build.pad(p.b).role})" for p in wrong[:4])
            short = any(
                {"ground"} < {build.pad(p.a).role, build.pad(p.b).role}
                and (is_live(build.pad(p.a)) or is_live(build.pad(p.b)))
                for p in wrong
            )
            yield Found(
                f"This plug joins unlike contacts: {shown}{' and more' if len(wrong) > 4 else ''}.",
                "Take a cable that lies the other way, or re-pin one end; ring it through first.",
                join.where,
                signal=Signal.DANGER if short else None,
            )
        else:
            yield Judged()
