"""Battery wire too thin for full throttle.

Checks: full throttle for up to three seconds against the current that melts the wire in three seconds (Onderdonk), and
the mean current against ratings below which no further look is needed (FAA AC 43.13-1B, table 11-9), with the drop.
Why: a lead that glows sets the pack alight.
Example: 24 AWG as a battery lead of a 4-cell build.
Mend: take thicker wire and keep it short.
Source: Onderdonk; FAA AC 43.13-1B CHG 1, table 11-9; ASTM B258
"""

from collections.abc import Iterator

from builder.compute.figure import Figure
from builder.compute.formulas.conductor import resistance_per_length, stranded_resistance, wire_resistance
from builder.compute.formulas.conductor_heat import onderdonk_current
from builder.compute.wire_mass import copper_area
from builder.diagnostics.finding import Severity, Signal
from builder.model.build import WireRun
from builder.model.kinds import Connector
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
_PUNCH_SECONDS, _AMBIENT, _WARM = 3.0, 298.15, 333.15
_DROP = 0.03
_STRANDS = 0.05


def _battery_runs(case: Case) -> list[WireRun]:
    return [
        r
        for r in case.build.wires
        if any(isinstance(case.build.parts[c.part].part, Connector) for c in (r.start, r.end)) and r.wire.lead is None
    ]


def check(case: Case) -> Iterator[Outcome]:
    punches = [f.peak_current.value for f in case.results.flight.packs.values() if isinstance(f.peak_current, Figure)]
    full = max((p.full for p in case.results.power.packs), default=0.0)
    for run in _battery_runs(case):
        if run.wire.gauge is None or run.wire.length is None:
            yield NotJudged(f"gauge and length of {run.start} to {run.end}", run.where)
            continue
        if not punches:
            yield NotJudged("current at full throttle: a bench table of the motor with this propeller", run.where)
            continue
        area, punch = copper_area(run.wire.gauge), max(punches)
        melts = onderdonk_current(area, _PUNCH_SECONDS, _AMBIENT)
        ohms = wire_resistance(
            stranded_resistance(resistance_per_length(area, _WARM), _STRANDS), 2 * run.wire.length.value
        )
        if punch > melts:
            yield Found(
                f"Full throttle takes {punch:.0f} A; {run.wire.gauge.label} melts at {melts:.0f} A within 3 s.",
                "Take thicker wire.",
                run.where,
                signal=Signal.WARNING,
            )
        elif full and punch * ohms > _DROP * full:
            yield Found(
                f"{run.start} to {run.end} and back drops {punch * ohms:.2f} V at full throttle "
                f"({100 * punch * ohms / full:.0f} % of a full pack).",
                "Take thicker or shorter wire.",
                run.where,
                severity=Severity.REMARK,
            )
        else:
            yield Judged()
