"""Volts below or above what a load accepts.

Checks: each load's accepted volts against what reaches it: a rail with its tolerance, or the pack from the builder's
landing volts to full by its chemistry. Too low is a fault only when the nominal volts already are.
Why: too much destroys the load at the first plug-in; too little lets it drop out in the air.
Example: a video transmitter that accepts 7 V to 37 V on a 5 V rail.
Mend: feed it from a rail inside its range.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT


def check(case: Case) -> Iterator[Outcome]:
    power = case.results.power
    for supplied in (*power.on_pack, *(s for row in power.rails for s in row.supplied)):
        load = supplied.load
        where = case.build.parts[load.pad.part].where
        source = load.source.label if load.source is not None else ""
        if load.low is None or load.high is None:
            yield NotJudged(f"volts that {load.part} accepts", load.where)
        elif supplied.lowest is None or supplied.highest is None or supplied.nominal is None:
            yield NotJudged("volts of the pack", case.build.where("packs"))
        elif supplied.highest > load.high * 1.001:
            yield Found(
                f"{load.part} accepts up to {load.high:g} V and gets up to {supplied.highest:.2f} V from {source}.",
                "Feed it from a lower rail.",
                where,
                signal=Signal.WARNING,
            )
        elif supplied.nominal < load.low:
            yield Found(
                f"{load.part} wants at least {load.low:g} V and gets {supplied.nominal:.2f} V from {source}.",
                "Feed it from a higher rail.",
                where,
            )
        elif supplied.lowest < load.low * 0.999:
            yield Found(
                f"{load.part} wants at least {load.low:g} V; {source} falls to {supplied.lowest:.2f} V before landing.",
                "Land earlier, or feed it from a rail that holds.",
                where,
                severity=Severity.REMARK,
            )
        else:
            yield Judged()
