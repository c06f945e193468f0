"""A satellite receiver that looks at the ground.

Checks: the face of each satellite receiver (`face`): its antenna is on its top.
Why: it finds few satellites or none, and the aircraft does not come home.
Example: a satellite receiver with `face: down` on the mast.
Mend: turn it over, or correct the face.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.model.kinds import SatelliteReceiver
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.REMARK
SIGNAL = Signal.WARNING


def check(case: Case) -> Iterator[Outcome]:
    for receiver in case.build.of_kind(SatelliteReceiver):
        if "face" not in receiver.use.model_fields_set:
            yield NotJudged(f"the face of {receiver.key}", receiver.where)
            continue
        if receiver.use.face == "up":
            yield Judged()
            continue
        text = f"{receiver.key} looks down: its antenna sees the ground."
        yield Found(text, "Turn it over, or correct its face.", receiver.where.at("face"))
