"""Capacitor legs that are too long.

Checks: the length of each leg, or of the wire to it, as it is cut: more than 20 mm is a remark.
Why: inductance of the legs keeps the capacitor from the spikes that it is there for.
Example: a capacitor on legs of 60 mm at the tail.
Mend: solder it at the battery pads, legs as short as the case lets you; sleeve them.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.model.build import Build, WireRun
from builder.model.kinds import Capacitor
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.REMARK
LONGEST = assumed("mounting/capacitor-legs")


def _length(build: Build, run: WireRun) -> float | None:
    """As cut; else as bought, if it is a leg; else as listed."""
    if run.wire.trim_to is not None:
        return run.wire.trim_to.value
    if run.wire.length is not None:
        return run.wire.length.value
    leads = build.parts[run.start.part].part.leads
    return (
        leads.length.value
        if run.wire.lead is not None and leads is not None and leads.length is not None
        else None
    )


def check(case: Case) -> Iterator[Outcome]:
    for run in case.build.wires:
        if not any(
            isinstance(case.build.parts[c.part].part, Capacitor) for c in (run.start, run.end)
        ):
            continue
        length = _length(case.build, run)
        if length is None:
            yield NotJudged(f"length of {run.start} to {run.end}", run.where)
        elif length > LONGEST + 1e-9:
            yield Found(
                say(
                    "{} to {} is {} long; up to {} does its work.",
                    run.start,
                    run.end,
                    given(length, "m"),
                    given(LONGEST, "m"),
                ),
                "Cut it shorter, or solder it nearer.",
                run.where,
            )
        else:
            yield Judged()
