"""A battery over a step of air transport.

Checks: watt-hours by nominal volts against 100 Wh and 160 Wh.
Why: passenger aircraft take batteries up to 100 Wh in the cabin, up to 160 Wh with the airline's
approval, none above.
Example: a 6-cell battery of 5000 mAh: 111 Wh.
Mend: ask the airline, ship it as dangerous goods, or take two smaller batteries; local rules come
first.
Source: IATA DGR 2.3.5 and 49 CFR 175.10 (second-hand copies)
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed_list
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import made, say

SEVERITY = Severity.REMARK
_FREELY, _WITH_APPROVAL = assumed_list("battery/air-travel")


def check(case: Case) -> Iterator[Outcome]:
    by_key = {p.key: p for p in case.results.power.packs}
    for key, pack in case.build.packs.items():
        volts = by_key.get(key)
        if volts is None or volts.capacity is None:
            yield NotJudged(f"cells and capacity of battery {key}", pack.shelf_where)
            continue
        energy = volts.nominal * volts.capacity / pack.joined
        holds = made(energy, "J", f"shelf/{pack.shelf}/capacity")
        if energy > _WITH_APPROVAL:
            yield Found(
                say("Battery {} holds {}; no passenger aircraft takes it.", key, holds),
                "Ship it as dangerous goods.",
                pack.where,
            )
        elif energy > _FREELY:
            yield Found(
                say(
                    "Battery {} holds {}; a passenger aircraft takes it with the airline's approval"
                    " only.",
                    key,
                    holds,
                ),
                "Ask the airline first.",
                pack.where,
            )
        else:
            yield Judged()
