"""An iron that cannot hold a joint's heat.

Checks: the heat that the hardest joint loses while it is held, against half the power of the
builder's iron.
Why: too little heat leaves a cold joint of higher resistance, as a rule on the battery's minus.
Example: an iron of 15 W at a battery pad on a ground plane.
Mend: a stronger iron, a broader tip, or warming the board from below.
Source: fin equation (Incropera and DeWitt, ch. 3); the half is common practice, no source
"""

from collections.abc import Iterator

from builder.compute.joints.iron import fitted_iron, iron_power
from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.REMARK


def check(case: Case) -> Iterator[Outcome]:
    joints = case.results.joints
    if not joints:
        return
    watts, iron = iron_power(case.build), fitted_iron(case.build)
    hardest = max(joints, key=lambda j: j.heat.power)
    if watts is None:
        yield NotJudged("power of the builder's iron", case.build.where("parts"))
    elif hardest.heat.power > 0.5 * watts:
        yield Found(
            say(
                "{} leads {} away; the iron has {}.",
                hardest.contact,
                hardest.heat.flow,
                given(watts, "W"),
            ),
            "Take a stronger iron or a broader tip, or warm the board from below.",
            iron.shelf_where.at("power") if iron is not None else None,
            see=(case.build.parts[hardest.contact.part].where,),
        )
    else:
        yield Judged()
