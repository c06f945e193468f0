"""A propeller nut that does not go on the shaft.

Checks: the thread that the propeller names for its nut against the diameter of the motor's shaft,
and against the nuts among the parts: one of that thread, and one for each propeller.
Why: a nut of another thread strips, and the propeller comes off in the air.
Example: an M5 nut on a shaft of 4 mm.
Mend: take the nut that belongs to the motor's shaft.
Source: ISO 261 for threads; common practice, no source
"""

from collections.abc import Iterator

from builder.compute.geometry.screws import thread_diameter
from builder.diagnostics.finding import Severity, Signal
from builder.model.build import Build, FittedAs
from builder.model.kinds import Hardware, Propeller
from builder.rules.compare import clash
from builder.rules.fit._airframe import motors
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_SAME = 0.2e-3  # m


def _shafts(build: Build, propeller: FittedAs[Propeller], across: float) -> Iterator[Outcome]:
    for fitted, motor in motors(build):
        if motor.shaft is None:
            yield NotJudged(f"shaft of {fitted.key}", fitted.shelf_where)
        elif abs(motor.shaft.value - across) <= _SAME:
            yield Judged()
        else:
            text = say(
                "{} wants a nut of {}; the shaft of {} is {}.",
                propeller.key,
                propeller.part.nut,
                fitted.key,
                given(motor.shaft.value, "m"),
            )
            at, other = propeller.shelf_where.at("nut"), fitted.shelf_where.at("shaft")
            yield clash(text, "Take a propeller and a motor that go together.", at, other)


def _nuts(build: Build, propeller: FittedAs[Propeller], across: float) -> Iterator[Outcome]:
    named = [
        f
        for f in build.of_kind(Hardware)
        if f.part.length is None and f.part.thread is not None and "nut" in f.key.casefold()
    ]
    on_shaft = [f for f in named if "prop" in f.key.casefold()]
    for fitted in on_shaft:
        own = thread_diameter(fitted.part.thread)
        if own is None or abs(own - across) > _SAME:
            text = f"{fitted.key} is {fitted.part.thread}; {propeller.key} wants {propeller.part.nut}."
            hint = "Take nuts of the thread that the propeller names."
            yield clash(text, hint, fitted.where, propeller.shelf_where.at("nut"))
        else:
            yield Judged()
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
            yield from _shafts(case.build, propeller, across)
            yield from _nuts(case.build, propeller, across)
