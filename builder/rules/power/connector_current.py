"""More current than a battery connector takes.

Checks: what the wires at each connector of the battery carry. As the builder flies, more than its
continuous rating is a fault. At full throttle, more than its short rating is a remark.
Why: a hot connector softens, opens, and lets go in the air.
Example: a cruise at 40 A through a connector for 30 A.
Mend: take a larger connector at both ends.
Source: common practice, no source
"""

from collections.abc import Iterator
from math import fsum

from builder.compute.figures.figure import Figure, MaybeFigure, Unknown
from builder.diagnostics.finding import Severity
from builder.model.build import Fitted
from builder.model.kinds import Connector
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT


def _carried(case: Case, fitted: Fitted) -> tuple[list[MaybeFigure], list[MaybeFigure]]:
    """Steady and short currents of the wires that end at a connector: those of its plus, or of its
    minus if more.
    """
    path = case.results.path
    key = fitted.key
    out, back = (
        [w for w in ways if key in (w.run.start.part, w.run.end.part)]
        for ways in (path.wires, path.returns)
    )
    wires = max(out, back, key=lambda found: _sum([w.short for w in found]))
    return [w.steady for w in wires], [w.short for w in wires]


def _sum(currents: list[MaybeFigure]) -> float:
    return fsum(c.value for c in currents if isinstance(c, Figure))


def _key(currents: list[MaybeFigure]) -> str:
    """The key behind a sum: that of the one current, none where several wires share it."""
    return currents[0].key if len(currents) == 1 else ""


def _one(case: Case, fitted: Fitted, part: Connector) -> Iterator[Outcome]:
    steady, short = _carried(case, fitted)
    if not steady:
        return  # nothing hangs on it, or the rules of wiring speak of it
    if part.continuous is None:
        yield NotJudged(f"continuous current of {fitted.key}", fitted.shelf_where)
        return
    takes = part.continuous.value
    briefly = part.short.value if part.short is not None else takes
    lacking = [m for c in (*steady, *short) if isinstance(c, Unknown) for m in c.missing]
    if _sum(steady) > takes:
        yield Found(
            say(
                "The mean current of {} is more than {} takes for long ({}).",
                made(_sum(steady), "A", _key(steady)),
                fitted.key,
                given(takes, "A", f"shelf/{fitted.shelf}/continuous"),
            ),
            "Take a larger connector at both ends.",
            fitted.where,
        )
    elif _sum(short) > briefly:
        yield Found(
            say(
                "Full throttle takes {} through {}, rated {} for short.",
                made(_sum(short), "A", _key(short)),
                fitted.key,
                given(
                    briefly,
                    "A",
                    f"shelf/{fitted.shelf}/{'short' if part.short is not None else 'continuous'}",
                ),
            ),
            "Keep full throttle short, and feel the connector after flying.",
            fitted.where,
            severity=Severity.REMARK,
        )
    elif lacking:
        yield from (NotJudged(m, fitted.where) for m in dict.fromkeys(lacking))
    else:
        yield Judged()


def check(case: Case) -> Iterator[Outcome]:
    for fitted in case.build.parts.values():
        if isinstance(fitted.part, Connector):
            yield from _one(case, fitted, fitted.part)
