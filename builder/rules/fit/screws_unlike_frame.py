"""A screw list that disagrees with the frame or the parts.

Checks: the layers under the motors' screws against the frame's arm. The screws of each place are
compared with their number among the parts, and those without a place are told. Motors get the same
number each. A board or a
frame's arm that a layer names is there.
Why: an arm that is thicker than listed leaves the screws too short; one that is thinner lets them
reach the winding.
Example: layers of 3.5 mm under the motors, on a frame whose arms are 5 mm thick.
Mend: measure the arm, and correct the layer or the frame.
Source: common practice, no source
"""

from collections import Counter
from collections.abc import Iterator
from math import fsum

from builder.compute.geometry.screws import ScrewRow
from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.model.build import Build, ScrewPlace
from builder.model.kinds import Motor
from builder.rules.compare import clash
from builder.rules.fit._airframe import frames, motors
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.FAULT
YIELDS_TO = (
    "fit/screw-grips-little",
    "fit/screw-too-long",
    "fit/screw-toward-pack",
)
_SAME = assumed("mounting/plate-thickness")
_ARM = ("arm", "arms", "motor arm", "frame arm")


def into_base(build: Build, row: ScrewRow) -> bool:
    """Whether screws go into the base of a motor, not into its bell."""
    return bool(row.motor) and row.into.casefold() in (row.motor, "motor", "motors")


def _arm(build: Build, place: ScrewPlace, row: ScrewRow) -> Iterator[Outcome]:
    for fitted, frame in frames(build):
        if not into_base(build, row) or not row.through:
            continue
        arm = frame.arm
        if arm is None:
            yield NotJudged(f"thickness of the arms of {fitted.key}", fitted.shelf_where)
            continue
        named = [i for i, (what, _) in enumerate(row.through) if what.casefold() in _ARM]
        layers = [row.through[i][1] for i in named] or [t for _, t in row.through]
        thick = fsum(layers)
        thin = thick < arm.value - _SAME
        if not thin and not (named and thick > arm.value + _SAME):
            yield Judged()
            continue
        at = place.where.at("through", named[0], "thick") if named else place.where.at("through")
        text = say(
            "The screws at {} pass {} of arm; the arms of {} are {} thick.",
            row.place,
            given(thick, "m"),
            fitted.key,
            given(arm.value, "m"),
        )
        hint = "Measure the arm, correct the one that is wrong, and look at the screws again."
        yield clash(text, hint, at, fitted.shelf_where.at("arm"))


def _counts(build: Build) -> Iterator[Outcome]:
    used = Counter[str]()
    for place in build.screws:
        used[place.screw.use] += place.screw.count
    for place in build.screws:
        fitted = build.parts.get(place.screw.use)
        if fitted is None:
            continue
        there = fitted.count + fitted.use.spares
        left = fitted.count - used[fitted.key]
        if left > 0:
            text = f"{left} of {fitted.count} {fitted.key} are at no place of the screw list."
            hint = "Name their place, or count them as spares."
            at = build.where("parts", fitted.key, "count")
            yield clash(text, hint, place.where.at("count"), at, Severity.REMARK)
            continue
        if used[fitted.key] <= there:
            yield Judged()
            continue
        text = f"The screw list uses {used[fitted.key]} of {fitted.key}; the build has {there}."
        hint = "Count them: one of the two numbers is wrong."
        yield clash(text, hint, place.where.at("count"), build.where("parts", fitted.key, "count"))


def _per_motor(build: Build, place: ScrewPlace, row: ScrewRow) -> Iterator[Outcome]:
    many = sum(f.count for f, _ in motors(build) if f.key == row.motor)
    if not into_base(build, row) or many == 0 or not isinstance(build.parts[row.motor].part, Motor):
        return
    mine = [r for r in build.screws if r.screw.into == place.screw.into]
    total = sum(r.screw.count for r in mine)
    if total % many == 0:
        yield Judged()
        return
    text = f"{total} screws hold {many} motors: these are not the same number each."
    hint = "Count the screws of one motor."
    yield Found(text, hint, place.where.at("count"), see=(build.where("parts", row.motor),))


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    yield from _counts(build)
    for place, row in zip(build.screws, case.results.screws, strict=True):
        yield from _arm(build, place, row)
        yield from _per_motor(build, place, row)
