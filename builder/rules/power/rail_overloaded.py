"""A rail loaded above its limit.

Checks: the sum of the typical currents against the rail's limit, with the board's own where that
counts inside it. Peaks longer than one second against it, or against a peak limit that lasts as
long. Whether the load comes near it (from 80 %).
Why: the converter overheats or gives up, as a rule in the air.
Example: 2.4 A of lights and video on a rail of 2 A.
Mend: move a load to another rail, or take a regulator of its own.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.circuit.rails import RailRow
from builder.compute.figures.figure import Figure
from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.model.build import Fitted
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say, share

SEVERITY = Severity.FAULT
NEAR = assumed("supply/near-limit")
LONG_PEAK = assumed("supply/long-peak")
_EFFICIENCY = assumed("supply/converter-unsaid")  # of the board's converter for its own draw


def _lasting_peak(row: RailRow) -> tuple[float, float]:
    """All loads together with those peaks that last over a second, in A, and the longest of them in
    s.
    """
    total, longest = 0.0, 0.0
    for s in row.supplied:
        seconds = s.load.peak_seconds or 0.0
        figure = s.peak if seconds > LONG_PEAK else s.typical
        total += figure.value if isinstance(figure, Figure) else 0.0
        longest = max(longest, seconds if seconds > LONG_PEAK else 0.0)
    return total, longest


def _own(row: RailRow, board: Fitted) -> float:
    """The board's own draw brought to the rail's volts, in A, where it counts inside the rail's
    limit.
    """
    supply, rail = board.part.supply, row.source.rail
    if rail is None or not rail.own_draw_inside or supply is None:
        return 0.0
    draw, at = supply.draw, supply.at
    if draw.typical is not None and at is not None:
        return _EFFICIENCY * draw.typical.value * at.value / row.volts
    return _EFFICIENCY * draw.power.value / row.volts if draw.power is not None else 0.0


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
        own = _own(row, fitted)
        typical, (peak, seconds) = row.typical.value + own, _lasting_peak(row)
        ceiling = (
            row.peak_limit
            if row.peak_limit is not None and seconds <= (row.peak_seconds or 0.0)
            else row.limit
        )
        loads += " and the board" if own else ""
        key, limit, used = row.typical.key, given(row.limit, "A"), typical / row.limit
        if typical > row.limit:
            yield Found(
                say(
                    "{} gives {} and is loaded with {} ({}).",
                    row.source.label,
                    limit,
                    made(typical, "A", key),
                    loads,
                ),
                "Move a load to another rail.",
                fitted.where,
            )
        elif peak + own > ceiling:
            yield Found(
                say(
                    "{} gives {} and peaks of {} last up to {} ({}).",
                    row.source.label,
                    given(ceiling, "A"),
                    made(peak + own, "A"),
                    given(seconds, "s"),
                    loads,
                ),
                "Move a load to another rail.",
                fitted.where,
            )
        elif typical >= NEAR * row.limit:
            yield Found(
                say(
                    "{} is loaded to {} of its {} ({}).",
                    row.source.label,
                    share(used, key),
                    limit,
                    loads,
                ),
                "Leave room: a warm converter gives less.",
                fitted.where,
                severity=Severity.REMARK,
            )
        else:
            yield Judged()
