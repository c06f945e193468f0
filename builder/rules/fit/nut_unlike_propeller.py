"""Nuts that do not go with the propellers.

Checks: the nuts for propellers among the parts (`propeller-nut`) against the thread that each
propeller names, and that there is one for each propeller.
Why: a nut of another thread strips, and the propeller comes off in the air.
Example: M4 nuts for propellers that want M5.
Mend: take nuts of the thread that the propeller and the shaft have.
Source: ISO 261 for threads; common practice, no source
"""

from collections.abc import Iterator

from builder.compute.geometry.screws import thread_diameter
from builder.diagnostics.finding import Severity, Signal
from builder.load.assumed import assumed
from builder.model.build import Build, FittedAs
from builder.model.kinds import Hardware, Propeller
from builder.rules.compare import clash
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
YIELDS_TO = ("fit/mount-unlike",)
_SAME = assumed("mounting/nut-width")


def is_nut(fitted: FittedAs[Hardware]) -> bool:
    """Whether a part is a nut with a thread; where its form is not said, by its name in the build."""
    part = fitted.part
    named = "nut" in fitted.key.casefold() and part.length is None
    return part.thread is not None and (part.form == "nut" if part.form else named)


def _nuts(build: Build, propeller: FittedAs[Propeller], across: float) -> Iterator[Outcome]:
    named = [f for f in build.of_kind(Hardware) if is_nut(f)]
    for fitted in (f for f in named if "prop" in f.key.casefold()):
        own = thread_diameter(fitted.part.thread)
        if own is not None and abs(own - across) <= _SAME:
            yield Judged()
            continue
        wanted = propeller.part.nut
        text = f"{fitted.key} is {fitted.part.thread}; {propeller.key} wants {wanted}."
        hint = "Take nuts of the thread that the propeller names."
        yield clash(text, hint, fitted.where, propeller.shelf_where.at("nut"))
    fitting = [f for f in named if thread_diameter(f.part.thread) == across]
    many = sum(f.count + f.use.spares for f in fitting)
    if fitting and many < propeller.count:
        text = f"{propeller.count} propellers have {many} nuts of {propeller.part.nut}."
        yield Found(text, "Count the nuts.", fitting[0].where, see=(propeller.where,))


def check(case: Case) -> Iterator[Outcome]:
    for propeller in case.build.of_kind(Propeller):
        across = thread_diameter(propeller.part.nut)
        if propeller.part.nut is not None and across is None:
            yield NotJudged(f"thread {propeller.part.nut!r}", propeller.shelf_where.at("nut"))
        elif across is not None:
            yield from _nuts(case.build, propeller, across)
