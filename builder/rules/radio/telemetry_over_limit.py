"""An answer of the receiver that is sent too strongly, or by a receiver that sends nothing.

Checks: the power at which the receiver answers, with the gain of its antenna, against the limit of
the control link's range. A receiver that answers is not called one-way.
Why: the limit counts what leaves each antenna, that of the aircraft too.
Example: a receiver that answers with 250 mW where 100 mW are allowed.
Mend: set a smaller power for the answer, or switch it off.
Source: ITU Radio Regulations 1.161 for e.i.r.p.; the limits of site.yaml, each with its own source
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Figure
from builder.compute.formulas.radio import radiated_power
from builder.compute.geometry.clearances import video_antennas
from builder.diagnostics.finding import Severity, Signal
from builder.model.build import Build, FittedAs
from builder.model.kinds import Antenna, Receiver
from builder.rounding import MILLIWATTS
from builder.rules.compare import EXACT, clash
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING


def _gain(build: Build) -> float | None:
    video = {f.key for f in video_antennas(build)}
    own = [f.part for f in build.of_kind(Antenna) if f.key not in video]
    gains = [a.gain.value for a in own if a.gain is not None]
    return max(gains) if gains and len(gains) == len(own) else None


def _one(case: Case, receiver: FittedAs[Receiver], limit: float) -> Outcome:
    sent, gain = receiver.part.telemetry, _gain(case.build)
    at = receiver.shelf_where.at("telemetry")
    if sent is None or gain is None:
        return NotJudged(f"power and antenna gain of the answer of {receiver.key}", at)
    radiates = radiated_power(sent.value, 0.0, gain)
    if radiates <= limit * (1 + EXACT):
        return Judged()
    text = say(
        "The answer of {} radiates {} e.i.r.p.; {} is allowed.",
        receiver.key,
        made(radiates, "W", decimals=None),
        given(limit, "W", shown_as=MILLIWATTS),
    )
    return Found(text, "Set a smaller power for its answer.", at)


def check(case: Case) -> Iterator[Outcome]:
    link = case.results.settings.radio.control
    allowed = link.allowed if link is not None and isinstance(link.frequency, Figure) else None
    for receiver in case.build.of_kind(Receiver):
        if receiver.part.telemetry is None:
            continue
        at = receiver.shelf_where
        if receiver.part.one_way:
            text = f"{receiver.key} sends nothing back, and names the power of its answer."
            yield clash(text, "Correct one of the two.", at.at("one_way"), at.at("telemetry"))
        elif allowed is not None and allowed.eirp is not None:
            yield _one(case, receiver, allowed.eirp.value)
