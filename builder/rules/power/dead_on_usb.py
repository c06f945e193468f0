"""A receiver that stays dark on USB.

Checks: whether USB feeds the rail that a receiver or satellite receiver hangs on, where the board
says what USB feeds.
Why: it can be neither bound nor set up on USB alone, and one then reaches for the battery with
propellers on.
Example: a receiver on a 9 V rail that wakes with the battery only.
Mend: feed it from a rail that USB feeds; else set it up on the bench supply, propellers off.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.model.kinds import Receiver, SatelliteReceiver
from builder.rules.power._usb import on_usb
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.REMARK


def check(case: Case) -> Iterator[Outcome]:
    for row in case.results.power.rails:
        board = case.build.parts[row.source.part.split(".")[0]]
        for s in row.supplied:
            fitted = case.build.parts[s.load.pad.part]
            if not isinstance(fitted.part, Receiver | SatelliteReceiver):
                continue
            fed = on_usb(board, row)
            if fed is None:
                yield NotJudged(
                    f"whether USB feeds {row.source.label}",
                    board.shelf_where.at("rails", row.source.name),
                )
            elif not fed:
                yield Found(
                    f"{s.load.part} hangs on {row.source.label}, which USB does not feed.",
                    "Feed it from a rail that USB feeds, or set it up on the bench supply,"
                    " propellers off.",
                    fitted.where,
                )
            else:
                yield Judged()
