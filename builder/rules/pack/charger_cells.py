"""A charger that cannot charge the battery.

Checks: the cells that each charger among the ground gear takes, against the cells of each battery.
Why: a charger for other cells does not balance the battery.
Example: a charger for one to four cells and a battery of six.
Mend: take a charger that fits, and set the battery's own charge current.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.model.kinds import GroundGear
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT


def check(case: Case) -> Iterator[Outcome]:
    for fitted in case.build.of_kind(GroundGear):
        cells = fitted.part.cells
        if cells is None:
            continue
        for pack in case.build.packs.values():
            if pack.part.cells is None:
                yield NotJudged(f"cells of battery {pack.key}", pack.shelf_where)
            elif not cells.low <= pack.part.cells.low <= cells.high:
                yield Found(
                    f"{fitted.key} charges {cells.label}, and battery {pack.key} has"
                    f" {pack.part.cells.label}.",
                    "Take a charger that fits.",
                    pack.where,
                )
            else:
                yield Judged()
