"""A charger that cannot charge the battery.

Checks: the cells that each charger among the ground gear takes, against the cells of each battery.
The current that it is set to is compared with what the chargers give at most.
Why: a charger for other cells does not balance the battery.
Example: a charger for one to four cells and a battery of six.
Mend: take a charger that fits, and set the battery's own charge current.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.diagnostics.where import Where
from builder.model.build import FittedPack
from builder.model.kinds import GroundGear
from builder.model.source.build_source import Charging
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.FAULT
_EXACT = 1e-6  # currents that are written alike are alike


def _given(case: Case, pack: FittedPack, said: Charging, at: Where) -> Outcome | None:
    """The current against what the chargers of the build give at most."""
    gear = [f.part for f in case.build.of_kind(GroundGear)]
    most = max((p.charge_current.value for p in gear if p.charge_current), default=None)
    if said.current is None or most is None:
        return None
    if said.current.value <= most * (1 + _EXACT):
        return Judged()
    text = say(
        "Battery {} is to be charged at {}; the charger gives {} at most.",
        pack.key,
        given(said.current.value, "A"),
        given(most, "A"),
    )
    hint = "Set no more than the charger gives; it takes longer."
    return Found(text, hint, at.at("current"), severity=Severity.REMARK)


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
    for pack in case.build.packs.values():
        said = pack.use.charging
        found = _given(case, pack, said, pack.where.at("charging")) if said is not None else None
        if found is not None:
            yield found
