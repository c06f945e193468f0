"""A propeller that turns faster than its maker allows.

Checks: the speed at full throttle on each full battery against the highest speed of the propeller.
The speed is by the bench table, or the motor's speed for each volt, less sag. Where it is not
known, the motor's speed without a propeller is a bound: below the limit it passes, above it
nothing is said.
Why: the pull at a blade's root grows with the square of its speed; a blade that lets go is thrown
at whoever stands near.
Example: 43000 rpm of a propeller made for 26000 rpm.
Mend: take a propeller that is made for it, fewer cells, or a motor with fewer turns for each volt.
Source: centrifugal force, any textbook of mechanics; the limit is the maker's
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Figure, MaybeFigure
from builder.diagnostics.finding import Severity, Signal
from builder.diagnostics.where import Where
from builder.model.build import FittedAs
from builder.model.kinds import Propeller
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING


def _one(
    fitted: FittedAs[Propeller],
    pack: str,
    where: Where,
    limit: float,
    full: MaybeFigure,
    bound: MaybeFigure,
) -> Outcome:
    if isinstance(full, Figure):
        if full.value <= limit:
            return Judged()
        return Found(
            say(
                "At full throttle on battery {} the propeller turns at {}; {} is made for {}.",
                pack,
                full,
                fitted.part.name,
                given(limit, "rad/s", f"shelf/{fitted.shelf}/max_rpm"),
            ),
            "Take a propeller that is made for it, fewer cells, or a slower motor.",
            where,
        )
    if isinstance(bound, Figure) and bound.value <= limit:
        return Judged()
    fact = (
        f"speed at full throttle on battery {pack}: speeds in a bench table of the motor with this"
        " propeller"
    )
    return NotJudged(fact, where)


def check(case: Case) -> Iterator[Outcome]:
    flown = case.results.flight
    for fitted in case.build.of_kind(Propeller):
        if fitted.part.max_rpm is None:
            yield NotJudged(f"highest speed of {fitted.key}", fitted.shelf_where)
            continue
        limit = fitted.part.max_rpm.value
        turned = flown.drive.propeller is not None and flown.drive.propeller.key == fitted.key
        for pack, found in flown.packs.items():
            where = case.build.packs[pack].where
            if turned:
                yield _one(fitted, pack, where, limit, found.speeds.full, found.speeds.no_load)
            else:
                yield NotJudged(
                    f"speed of {fitted.key} at full throttle: only one kind of propeller is"
                    " computed",
                    where,
                )
