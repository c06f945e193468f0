"""A charger that cannot charge the battery.

Checks: the cells that each charger among the ground gear takes, against the cells of each battery.
The current that it is set to is compared with what the chargers give at most. That has to be within
a charger's own power on the fewest cells.
Why: a charger for other cells does not balance the battery.
Example: a charger for one to four cells and a battery of six.
Mend: take a charger that fits, and set the battery's own charge current.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.diagnostics.where import Where
from builder.load.assumed import assumed_list
from builder.model.build import FittedAs, FittedPack
from builder.model.kinds import GroundGear
from builder.model.source.build_source import Charging
from builder.rules.compare import clash
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
_FULL = assumed_list("battery/lithium-ion")[0]
_EXACT = 1e-6  # currents that are written alike are alike


def _given(case: Case, pack: FittedPack, said: Charging, at: Where) -> Outcome | None:
    """The current against what the chargers of the build give at most."""
    gear = [f.part for f in case.build.of_kind(GroundGear) if f.part.joins is None]
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


def _power(charger: FittedAs[GroundGear]) -> Outcome | None:
    """Whether the charger can give its current at all: on the fewest cells that it takes, full."""
    part = charger.part
    if part.power is None or part.charge_current is None or part.cells is None:
        return None
    needs = part.charge_current.value * part.cells.low * _FULL
    if needs <= part.power.value * (1 + _EXACT):
        return Judged()
    text = say(
        "{} gives {}, which takes {} on {}S; it is made for {}.",
        charger.key,
        given(part.charge_current.value, "A"),
        made(needs, "W"),
        part.cells.low,
        given(part.power.value, "W"),
    )
    at = charger.shelf_where
    hint = "Read its label, and correct the one that is wrong."
    return clash(text, hint, at.at("charge_current"), at.at("power"), Severity.REMARK)


def check(case: Case) -> Iterator[Outcome]:
    for fitted in case.build.of_kind(GroundGear):
        cells, able = fitted.part.cells, _power(fitted)
        yield from () if able is None else (able,)
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
