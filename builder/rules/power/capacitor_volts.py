"""A capacitor with too few volts, or none where one is usual.

Checks: rated volts against the highest volts where it is, as a rule a full battery. Below them is
a fault; below 1.25 times them is a remark. No capacitor from three cells on is a remark.
Why: spikes of the speed controller stand on top of the battery's volts; a capacitor beyond its rating
vents or bursts.
Example: a capacitor of 16 V on four cells (16.8 V full).
Mend: take one with a higher rating; keep its legs short.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.circuit.feeds import PACK, sources_by_net
from builder.diagnostics.finding import Severity, Signal
from builder.load.assumed import assumed
from builder.model.build import Contact, Fitted
from builder.model.kinds import Capacitor, Motor
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
EASY = assumed("supply/capacitor-room")


def _highest(case: Case, fitted: Fitted, full: float | None) -> tuple[float | None, str]:
    """The highest volts where a capacitor sits, and from what: its rail, or a full pack."""
    by_net = sources_by_net(case.build, case.results.netlist)
    for piece in fitted.pieces:
        for name, pad in fitted.part.pads.items():
            if pad.role == "ground":
                continue
            given = by_net.get(case.results.netlist.of[Contact(fitted.key, piece, name)].name, ())
            row = next(
                (
                    r
                    for r in case.results.power.rails
                    if given and PACK not in given and r.source in given
                ),
                None,
            )
            if row is not None:
                return row.high, row.source.label
    return full, "a full battery"


def _one(case: Case, fitted: Fitted, full: float | None) -> Outcome:
    volts = (
        fitted.part.volts.value
        if isinstance(fitted.part, Capacitor) and fitted.part.volts is not None
        else None
    )
    high, source = _highest(case, fitted, full)
    if volts is None:
        return NotJudged(f"volts of {fitted.key}", fitted.shelf_where)
    if high is None:
        return NotJudged("cells of the batteries", case.build.where("packs"))
    rated = given(volts, "V", f"shelf/{fitted.shelf}/volts")
    text = say("{} is rated {}, and {} gives {}", fitted.key, rated, source, made(high, "V"))
    if volts < high:
        return Found(say("{}.", text), "Take a higher rating.", fitted.where, signal=Signal.WARNING)
    if volts < EASY * high:
        more = say(
            "; {} times that ({}) leaves room for spikes.", given(EASY, "1"), made(EASY * high, "V")
        )
        return Found(
            say("{}{}", text, more), "Take a higher rating.", fitted.where, severity=Severity.REMARK
        )
    return Judged()


def check(case: Case) -> Iterator[Outcome]:
    packs = case.results.power.packs
    full = max((p.full for p in packs), default=None)
    fitted_ones = case.build.of_kind(Capacitor)
    if (
        not fitted_ones
        and case.build.of_kind(Motor)
        and max((p.series for p in packs), default=0) >= 3
    ):
        yield Found(
            "There is no capacitor across the battery pads.",
            "Fit one at the speed controller, legs short.",
            case.build.where("parts"),
            severity=Severity.REMARK,
        )
    for fitted in fitted_ones:
        yield _one(case, fitted, full)
