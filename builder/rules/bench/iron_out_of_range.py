"""An iron that is too cold for the solder, or cannot be set as hot as a joint needs it.

Checks: for each joint, the temperature of the order of work against the solder's liquidus plus
100 °C. Also against the hottest setting of the builder's iron.
Why: below liquidus plus 100 °C a joint takes so long that flux burns away first. Above 430 °C flux
burns at once, and the copper lifts off the board.
Example: an iron that ends at 350 °C for the battery's minus on a ground plane.
Mend: take an iron that gets hotter, warm the board from below, or take a solder that melts lower.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.joints.iron import fitted_iron
from builder.compute.joints.tips import HOTTEST
from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.model.kinds import Consumable
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.REMARK
_ABOVE_LIQUIDUS = assumed("mounting/iron-above-liquidus")


def check(case: Case) -> Iterator[Outcome]:
    joints = case.results.joints
    if not joints:
        return
    fitted = fitted_iron(case.build)
    limit = fitted.part.hottest if fitted is not None else None
    hottest = limit.value if limit is not None else None
    if hottest is None:
        yield NotJudged("how hot the builder's iron can be set", case.build.where("parts"))
    worst = max(joints, key=lambda j: j.heat.setting)
    where = case.build.parts[worst.contact.part].where
    cold = min(joints, key=lambda j: j.heat.setting - j.heat.melts)
    at = case.build.parts[cold.contact.part].where
    solders = (f for f in case.build.of_kind(Consumable) if f.part.melts is not None)
    melting = next((f.shelf_where for f in solders), at)
    if cold.heat.setting < cold.heat.melts + _ABOVE_LIQUIDUS:
        yield Found(
            say(
                "{} asks for {}, less than {} above the solder's {}.",
                cold.contact,
                given(cold.heat.setting, "degC"),
                given(_ABOVE_LIQUIDUS, "degC"),
                given(cold.heat.melts, "degC"),
            ),
            say(
                "Take a solder that melts lower; above {} flux burns and copper lifts off.",
                given(HOTTEST, "degC"),
            ),
            melting,
            see=(at,),
        )
    elif hottest is not None and hottest < worst.heat.setting:
        yield Found(
            say(
                "{} asks for {}; the iron ends at {}.",
                worst.contact,
                given(worst.heat.setting, "degC"),
                given(hottest, "degC"),
            ),
            "Take an iron that gets hotter, or warm the board from below.",
            fitted.shelf_where.at("hottest") if fitted is not None else None,
            see=(where,),
        )
    else:
        yield Judged()
