"""A maker's own lead at its limit.

Checks: full throttle through the leads of batteries and motors, against the current that melts them
in ten seconds (Onderdonk). A motor's lead carries 0.82 of its current (two thirds of the time).
Why: a lead that hot ages its insulation, and says that full throttle is to be kept short.
Example: a battery with 20 AWG leads that gives 60 A.
Mend: keep full throttle short, or take a battery with thicker leads.
Source: Onderdonk; the share of three phases with two on at a time is √(2/3)
"""

from collections.abc import Iterator
from math import sqrt

from builder.compute.figures.figure import Figure
from builder.compute.formulas.electric.conductor_heat import onderdonk_current
from builder.compute.weight.wire_mass import copper_area
from builder.diagnostics.finding import Severity
from builder.diagnostics.sentence import Amount
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.kinds import Motor
from builder.model.values.measures import Gauge
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import made, say

SEVERITY = Severity.REMARK
_SECONDS, _AMBIENT = assumed("wires/lead-melts-within"), assumed("wires/air")
_NO_PUNCH = "a bench table of this motor with this propeller"


def _one(name: str, gauge: Gauge, current: Amount, where: Where) -> Outcome:
    melts = onderdonk_current(copper_area(gauge), _SECONDS, _AMBIENT)
    if current.value <= melts:
        return Judged()
    at = made(melts, "A")
    return Found(
        say(
            "Full throttle takes {} through {}, {}; that melts at {} within 10 s.",
            current,
            name,
            gauge.label,
            at,
        ),
        "Keep full throttle short.",
        where,
    )


def check(case: Case) -> Iterator[Outcome]:
    flown, build = case.results.flight, case.build
    peaks = {
        k: p.peak_current for k, p in flown.packs.items() if isinstance(p.peak_current, Figure)
    }
    for key, pack in build.packs.items():
        if pack.part.lead_gauge is None:
            continue
        if key not in peaks:
            yield NotJudged(_NO_PUNCH, pack.where)
        else:
            each = made(peaks[key].value / max(1, pack.use.parallel), "A", peaks[key].key)
            yield _one(f"the leads of battery {key}", pack.part.lead_gauge, each, pack.where)
    for fitted in build.of_kind(Motor):
        leads = fitted.part.leads
        if leads is None or leads.gauge is None or not flown.drive.rotors or not peaks:
            continue
        share = sqrt(2.0 / 3.0) if fitted.part.phases == 3 else 1.0
        most = max(peaks.values(), key=lambda p: p.value)
        each = made(share * most.value / flown.drive.rotors, "A", most.key)
        yield _one(f"the leads of {fitted.key}", leads.gauge, each, fitted.where)
