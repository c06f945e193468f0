"""A battery with more or fewer cells than the speed controller takes.

Checks: the cells of each battery against the cells of the speed controller.
Why: too many destroy it at the first plug-in.
Example: six cells on a speed controller for three to four.
Mend: take a battery that fits, or another speed controller.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.model.kinds import SpeedController
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING


def check(case: Case) -> Iterator[Outcome]:
    for fitted in case.build.of_kind(SpeedController):
        cells = fitted.part.cells
        for pack in case.build.packs.values():
            if cells is None or pack.cells is None:
                what = (
                    f"cells that {fitted.key} takes"
                    if cells is None
                    else f"cells of battery {pack.key}"
                )
                yield NotJudged(what, fitted.shelf_where if cells is None else pack.shelf_where)
            elif not cells.low <= pack.cells.low <= cells.high:
                yield Found(
                    f"Battery {pack.key} has {pack.cells.label}, and {fitted.key} takes"
                    f" {cells.label}.",
                    "Take a battery that fits.",
                    pack.where,
                )
            else:
                yield Judged()
