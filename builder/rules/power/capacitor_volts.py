"""A capacitor with too few volts, or none where one is usual.

Checks: rated volts against the fullest pack: a fault below it, a remark below 1.25 times it, and a remark where there
is no capacitor from three cells on.
Why: spikes of the speed controller stand on top of the pack's volts; a capacitor beyond its rating vents or bursts.
Example: a capacitor of 16 V on four cells (16.8 V full).
Mend: take one with a higher rating; keep its legs short.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.model.kinds import Capacitor
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
EASY = 1.25


def check(case: Case) -> Iterator[Outcome]:
    packs = case.results.power.packs
    full = max((p.full for p in packs), default=None)
    fitted_ones = case.build.of_kind(Capacitor)
    if full is None:
        yield NotJudged("cells of the packs", case.build.where("packs"))
        return
    if not fitted_ones and max(p.series for p in packs) >= 3:
        yield Found(
            "There is no capacitor across the battery pads.",
            "Fit one at the speed controller, legs short.",
            case.build.where("parts"),
            severity=Severity.REMARK,
        )
    for fitted in fitted_ones:
        volts = fitted.part.volts.value if fitted.part.volts is not None else None  # type: ignore[attr-defined]
        if volts is None:
            yield NotJudged(f"volts of {fitted.key}", fitted.shelf_where)
        elif volts < full:
            yield Found(
                f"{fitted.key} is rated {volts:g} V, and a full pack gives {full:.1f} V.",
                "Take a higher rating.",
                fitted.where,
                signal=Signal.WARNING,
            )
        elif volts < EASY * full:
            yield Found(
                f"{fitted.key} is rated {volts:g} V, {volts / full:.2f} times a full pack; 1.25 times leaves room for spikes.",
                "Take a higher rating.",
                fitted.where,
                severity=Severity.REMARK,
            )
        else:
            yield Judged()
