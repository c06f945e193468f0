"""A wire shorter than its route.

Checks: the length of each wire (or what a fitted lead is trimmed to) against its stated route, or against the
distance between the two parts where both are placed.
Why: a lead can be shortened, never lengthened; a taut wire tears its pad off.
Example: a camera lead of 40 mm for parts that sit 55 mm apart.
Mend: cut it longer, or move a part.
Source: common practice, no source
"""

from collections.abc import Iterator
from math import dist

from builder.diagnostics.finding import Severity
from builder.model.build import Contact, WireRun
from builder.model.measures import Position
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT


def _place(case: Case, contact: Contact) -> Position | None:
    fitted = case.build.parts[contact.part]
    if fitted.use.each_at and contact.piece and contact.piece <= len(fitted.use.each_at):
        return fitted.use.each_at[contact.piece - 1]
    return fitted.use.at if fitted.count == 1 else None


def _length(case: Case, run: WireRun) -> float | None:
    if run.wire.length is not None:
        return run.wire.length.value
    if run.wire.lead == "fitted":
        if run.wire.trim_to is not None:
            return run.wire.trim_to.value
        leads = case.build.parts[run.start.part].part.leads
        return leads.length.value if leads is not None and leads.length is not None else None
    return None


def _slack(case: Case, contact: Contact) -> float:
    """How far a contact may lie from the middle of its part: half its longer side."""
    size = case.build.parts[contact.part].part.size
    return max(size.along[:2]) / 2 if size is not None else 0.0


def check(case: Case) -> Iterator[Outcome]:
    for run in case.build.wires:
        length = _length(case, run)
        if length is None:
            yield NotJudged(f"length of the wire {run.start} to {run.end}", run.where)
            continue
        if run.wire.route is not None:
            need, why = run.wire.route.value, "its route"
        else:
            a, b = _place(case, run.start), _place(case, run.end)
            if a is None or b is None:
                continue
            straight = dist((a.x, a.y, a.z), (b.x, b.y, b.z))
            need, why = max(0.0, straight - _slack(case, run.start) - _slack(case, run.end)), "the way between its ends"
        if length < need - 1e-9:
            yield Found(
                f"{run.start} to {run.end} is {1000 * length:.0f} mm long, and {why} is {1000 * need:.0f} mm.",
                "Cut it longer, or move a part.",
                run.where,
            )
        else:
            yield Judged()
