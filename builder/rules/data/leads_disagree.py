"""Leads that a maker fitted, said twice and differently.

Checks: how many leads a part has against their names and colours. The legs of a capacitor are
compared with its leads. Each wire that is a fitted lead is compared with its part: whether it has
leads, and their copper. What it is trimmed to is checked by wiring/wire-too-short.
Why: a joint or a colour too many moves the heat, the weight and the order of work.
Example: a motor with three leads and two names for them.
Mend: measure the lead, and correct the one that is wrong.
Source: the figures themselves
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.model.build import Build, Fitted, WireRun
from builder.model.kinds import Capacitor
from builder.rules.compare import alike, clash, same_value
from builder.rules.rule import Case, Found, Judged, Outcome

SEVERITY = Severity.REMARK


def _part(fitted: Fitted) -> Iterator[Outcome | None]:
    leads, at = fitted.part.leads, fitted.shelf_where.at("leads")
    if leads is None:
        return
    for name, many in (("names", len(leads.names)), ("colours", len(leads.colours))):
        if many and many != leads.count:
            text = f"{fitted.key} has {leads.count} leads, and {many} {name} of them."
            yield clash(text, "Name each lead once.", at.at(name), at.at("count"))
        elif many:
            yield Judged()
    for i, name in enumerate(leads.names):
        if fitted.part.pads and name not in fitted.part.pads:
            text = f"The lead {name!r} of {fitted.key} is none of its pads."
            yield Found(text, "Name the pad at the free end.", at.at("names", i))
    if isinstance(fitted.part, Capacitor) and fitted.part.lead is not None:
        one = ("lead", fitted.part.lead.value, fitted.shelf_where.at("lead"))
        length = leads.length.value if leads.length is not None else None
        yield same_value(fitted.key, one, ("leads length", length, at.at("length")), "m")


def _wire(build: Build, run: WireRun) -> Iterator[Outcome]:
    if run.wire.lead is None:
        return
    fitted = build.parts[run.start.part]
    leads, at = fitted.part.leads, fitted.shelf_where.at("leads")
    if leads is None:
        text = f"The wire from {run.start} is a fitted lead, and {fitted.part.name} has none."
        hint = "Write its leads on the shelf, or gauge and length of the wire here."
        yield clash(text, hint, run.where.at("lead"), fitted.shelf_where)
        return
    own, theirs = run.wire.gauge, leads.gauge
    if own is not None and theirs is not None:
        if alike(own.square_metres, theirs.square_metres, 0.05):
            yield Judged()
        else:
            text = f"The lead at {run.start} is {own.label} here, and {theirs.label} on the shelf."
            yield clash(text, "Correct one of the two.", run.where.at("gauge"), at.at("gauge"))


def check(case: Case) -> Iterator[Outcome]:
    for fitted in case.build.parts.values():
        yield from (said for said in _part(fitted) if said is not None)
    for run in case.build.wires:
        yield from _wire(case.build, run)
