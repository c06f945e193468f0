"""A rail loaded above its limit.

Checks: the sum of the typical currents against the rail's limit, the sum of the peaks that last over one second
against its peak limit, and whether the load comes near it (from 80 %).
Why: the converter overheats or gives up, as a rule in the air.
Example: 2.4 A of lights and video on a rail of 2 A.
Mend: move a load to another rail, or take a regulator of its own.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.figure import Figure
from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
NEAR = 0.8
LONG_PEAK = 1.0


def _lasting_peak(row: object) -> float:
    total = 0.0
    for s in row.supplied:  # type: ignore[attr-defined]
        lasts = s.load.peak_seconds is not None and s.load.peak_seconds > LONG_PEAK
        figure = s.peak if lasts else s.typical
        total += figure.value if isinstance(figure, Figure) else 0.0
    return total


def check(case: Case) -> Iterator[Outcome]:
    for row in case.results.power.rails:
        if not row.supplied:
            continue
        fitted = case.build.parts[row.source.part.split(".")[0]]
        where = fitted.shelf_where.at("rails", row.source.name)
        if row.limit is None:
            yield NotJudged(f"limit of {row.source.label}", where)
            continue
        for part in row.unknown:
            yield NotJudged(f"current of {part}", case.build.parts[part.split(".")[0]].shelf_where)
        loads = ", ".join(s.load.part for s in row.supplied)
        ceiling = row.peak_limit or row.limit
        if row.typical.value > row.limit:
            yield Found(
                f"{row.source.label} gives {row.limit:g} A and is loaded with {row.typical.value:.2f} A ({loads}).",
                "Move a load to another rail.",
                fitted.where,
            )
        elif _lasting_peak(row) > ceiling:
            yield Found(
                f"{row.source.label} gives {ceiling:g} A and peaks of {_lasting_peak(row):.2f} A last over a second.",
                "Move a load to another rail.",
                fitted.where,
            )
        elif row.typical.value >= NEAR * row.limit:
            yield Found(
                f"{row.source.label} is loaded to {100 * row.typical.value / row.limit:.0f} % of its {row.limit:g} A ({loads}).",
                "Leave room: a warm converter gives less.",
                fitted.where,
                severity=Severity.REMARK,
            )
        else:
            yield Judged()
