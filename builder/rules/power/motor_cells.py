"""A battery with more or fewer cells than the motor is wound for.

Checks: the cells of each battery against the cells that the motor's maker names.
Why: too many overheat the winding and the speed controller.
Example: a motor for three to four cells on six.
Mend: take a battery that fits, or motors with a lower speed constant.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.model.kinds import Motor
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT


def check(case: Case) -> Iterator[Outcome]:
    for fitted in case.build.of_kind(Motor):
        cells = fitted.part.cells
        for pack in case.build.packs.values():
            if cells is None or pack.cells is None:
                yield NotJudged(f"cells that {fitted.key} takes", fitted.shelf_where)
            elif not cells.low <= pack.cells.low <= cells.high:
                yield Found(
                    f"Battery {pack.key} has {pack.cells.label}, and {fitted.shelf} takes"
                    f" {cells.label}.",
                    "Take a battery that fits, or other motors.",
                    pack.where,
                )
            else:
                yield Judged()
