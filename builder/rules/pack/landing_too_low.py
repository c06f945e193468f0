"""A landing that leaves too little in the battery.

Checks: for each battery, the volts of a cell or the share of the charge at which the build says
that a flight ends. Volts under load count as rested with 0.15 V more. Rested lithium-polymer under
3.3 V and lithium-ion under 2.8 V a cell is a fault. Nothing left is a fault too. Less than a tenth
of the charge is a remark.
Why: cells that are emptied so far are harmed; they may swell and burn at the next charge. The
motors stop in the air a little later.
Example: landing volts of 3.0 V a cell under load on a lithium-polymer battery.
Mend: land with 20 % of the charge left, or at 3.5 V a cell under load or above.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.circuit.landing_choice import RECOVERY, Chosen, chosen_landing
from builder.diagnostics.finding import Severity, Signal
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say, share

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
FLOOR = {
    "lithium-polymer": assumed("battery/lithium-polymer-floor"),
    "high-voltage lithium-polymer": assumed("battery/lithium-polymer-floor"),
    "lithium-ion": assumed("battery/lithium-ion-floor"),
}
_LEAST = assumed("battery/least-left")
_EXACT = 1e-9
_MEND = "Land with 20 % of the charge left, or at higher volts."


def check(case: Case) -> Iterator[Outcome]:
    for key, pack in case.build.packs.items():
        chosen = chosen_landing(case.build, pack)
        where = chosen.where or pack.where
        if chosen.share is not None:
            yield _by_share(key, chosen.share, where)
        elif chosen.volts is None:
            yield Judged()
        elif pack.part.chemistry is None:
            yield NotJudged(f"chemistry of battery {key}", where)
        else:
            yield _by_volts(key, pack.part.chemistry, chosen, chosen.volts, where)


def _by_share(key: str, left: float, where: Where) -> Outcome:
    if left >= _LEAST - _EXACT:
        return Judged()
    text = say("Battery {} is flown until {} of its charge is left.", key, share(left))
    severity = Severity.REMARK if left > 0.0 else SEVERITY
    return Found(text, _MEND, where, severity=severity)


def _by_volts(key: str, chemistry: str, chosen: Chosen, volts: float, where: Where) -> Outcome:
    loaded = chosen.state == "loaded"
    rested = volts + RECOVERY[0] if loaded else volts
    if rested >= FLOOR[chemistry] - _EXACT:
        return Judged()
    state = "under load, which is about {} rested" if loaded else "rested"
    about = say(state, made(rested, "V")) if loaded else say(state)
    text = say(
        "Battery {} is flown down to {} a cell {}; rested {} is harmed under {}.",
        key,
        given(volts, "V"),
        about,
        chemistry,
        given(FLOOR[chemistry], "V"),
    )
    return Found(text, _MEND, where)
