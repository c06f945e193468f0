"""A step-down rail whose input falls too low.

Checks: the volts at the input of each rail against what it needs there: min_in, or its volts plus
its dropout. The input is the battery from landing to full, or the rail that feeds its board.
Why: the rail sags with the battery, and picture or link go first.
Example: a 9 V rail that needs 10.5 V, on three cells landed at 10.2 V.
Mend: land earlier, or take a rail that holds.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.circuit.rails import RailRow
from builder.diagnostics.finding import Severity
from builder.rules.power._input import input_of
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
_PASSES_THROUGH = ("step-up", "switch", "direct")


def _need(row: RailRow) -> float | None:
    rail = row.source.rail
    if rail is not None and rail.min_in is not None:
        return rail.min_in.value
    return row.volts + rail.dropout.value if rail is not None and rail.dropout is not None else None


def _text(row: RailRow, need: float, source: str, does: str, volts: float) -> str:
    return say(
        "{} needs {} at its input; {} {} {}.",
        row.source.label,
        given(need, "V"),
        source,
        does,
        made(volts, "V"),
    )


def check(case: Case) -> Iterator[Outcome]:
    for row in case.results.power.rails:
        rail = row.source.rail
        if rail is None or not row.supplied or rail.converter in _PASSES_THROUGH:
            continue
        fitted = case.build.parts[row.source.part.split(".")[0]]
        need, fed = _need(row), input_of(case, row)
        where = fitted.shelf_where.at("rails", row.source.name)
        if need is None:
            yield NotJudged(f"input volts that {row.source.label} needs", where)
        elif fed is None:
            yield NotJudged(f"volts that feed {row.source.label}", where)
        elif fed.nominal < need:
            yield Found(
                _text(row, need, fed.source, "gives", fed.nominal),
                "Take more cells, or another rail.",
                fitted.where,
            )
        elif fed.lowest < need:
            yield Found(
                _text(row, need, fed.source, "falls to", fed.lowest),
                "Land earlier.",
                fitted.where,
                severity=Severity.REMARK,
            )
        else:
            yield Judged()
