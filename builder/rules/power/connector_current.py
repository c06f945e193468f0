"""More current than the battery connector takes.

Checks: mean current in the builder's style against the connector's continuous rating, full throttle against its short
one.
Why: a hot connector softens, opens, and lets go in the air.
Example: a cruise at 40 A through a connector for 30 A.
Mend: take a larger connector at both ends.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.figure import Figure
from builder.diagnostics.finding import Severity
from builder.model.kinds import Connector
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT


def check(case: Case) -> Iterator[Outcome]:
    for fitted in case.build.of_kind(Connector):
        part = fitted.part
        if not any(p.polarity == "plus" or n.upper() == "PLUS" for n, p in part.pads.items()):
            continue
        if part.continuous is None:  # type: ignore[attr-defined]
            yield NotJudged(f"continuous current of {fitted.key}", fitted.shelf_where)
            continue
        long = part.continuous.value  # type: ignore[attr-defined]
        short = part.short.value if part.short is not None else long  # type: ignore[attr-defined]
        for pack, found in case.results.flight.packs.items():
            cruise = found.styled_current.value if isinstance(found.styled_current, Figure) else None
            punch = found.peak_current.value if isinstance(found.peak_current, Figure) else None
            if cruise is None:
                yield NotJudged("mean current in flight", case.build.packs[pack].where)
            elif cruise > long:
                yield Found(
                    f"The mean current of {cruise:.0f} A on pack {pack} is more than {fitted.key} takes for long ({long:g} A).",
                    "Take a larger connector at both ends.",
                    fitted.where,
                )
            elif punch is not None and punch > short:
                yield Found(
                    f"Full throttle on pack {pack} takes {punch:.0f} A through {fitted.key}, rated {short:g} A for short.",
                    "Keep full throttle short, and feel the connector after flying.",
                    fitted.where,
                    severity=Severity.REMARK,
                )
            else:
                yield Judged()
