"""Numbers of pieces that do not go together.

Checks: motors against propellers, places for motors on the frame, and channels of the speed
controllers. A speed controller has as many channels as its phase contacts name. Places and
weighings of single pieces are compared with their count. Batteries that are joined are compared
with how many there are.
Why: a motor without a channel or a propeller is found on the bench, after the order was paid.
Example: four motors and three propellers.
Mend: count again, and correct the number that is wrong.
Source: the numbers themselves
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.diagnostics.where import Where
from builder.model.build import Build, Fitted, FittedPack
from builder.model.kinds import SpeedController
from builder.rounding import counted
from builder.rules.compare import clash
from builder.rules.fit._airframe import frames, motors, propellers
from builder.rules.rule import Case, Judged, Outcome

SEVERITY = Severity.FAULT
_COUNT = "Count again, and correct the number that is wrong."


def _same(text: str, right: bool, where: Where, other: Where) -> Outcome:
    return Judged() if right else clash(text, _COUNT, where, other)


def _motors(build: Build) -> Iterator[Outcome]:
    mine, blades = motors(build), propellers(build)
    many, turned = sum(f.count for f, _ in mine), sum(f.count for f, _ in blades)
    if not many:
        return
    at = mine[0][0].where
    if blades:
        text = f"{many} motors have {turned} propellers."
        yield _same(text, many == turned, blades[0][0].where, at)
    for fitted, frame in frames(build):
        places = frame.motors
        if places:
            room = len(places) if len(places) > many / 2 else len(places) * frame.motors_per_arm
            text = f"{fitted.key} has places for {room} motors, and the build has {many}."
            yield _same(text, room == many, at, fitted.shelf_where.at("motors"))
    drives = build.of_kind(SpeedController)
    channels = [(d.part.channels or 0) * d.count for d in drives]
    if drives and all(channels):
        text = f"{many} motors have {sum(channels)} channels of speed controllers."
        yield _same(text, many <= sum(channels), at, drives[0].shelf_where.at("channels"))


def _pieces(build: Build, fitted: Fitted) -> Iterator[Outcome]:
    use, at = fitted.use, build.where("parts", fitted.key)
    if use.each_at:
        places = counted(len(use.each_at), "place")
        text = f"{fitted.key} is there {counted(use.count, 'time')}, and has {places}."
        yield _same(text, len(use.each_at) == use.count, at.at("each_at"), at)
    if use.each_weighed:
        there = use.count + use.spares
        weighed = counted(len(use.each_weighed), "time")
        text = f"{fitted.key} is there {counted(there, 'time')}, and was weighed {weighed}."
        yield _same(text, len(use.each_weighed) <= there, at.at("each_weighed"), at)


def _channels(fitted: Fitted) -> Iterator[Outcome]:
    part, at = fitted.part, fitted.shelf_where
    if not isinstance(part, SpeedController) or part.channels is None:
        return
    numbers = {p.channel for p in part.pads.values() if p.role == "phase"} - {None}
    if numbers:
        text = f"{fitted.key} has {part.channels} channels, and phase contacts of {len(numbers)}."
        yield _same(text, len(numbers) == part.channels, at.at("channels"), at.at("pads"))


def _how(pack: FittedPack) -> str:
    """How several batteries are joined, in words."""
    if pack.use.series == 1:
        return " in parallel"
    return " in series" if pack.use.parallel == 1 else ", in series and in parallel"


def check(case: Case) -> Iterator[Outcome]:
    yield from _motors(case.build)
    for fitted in case.build.parts.values():
        yield from _pieces(case.build, fitted)
        yield from _channels(fitted)
    for pack in case.build.packs.values():
        many, joined = pack.use.count, pack.joined
        text = f"{joined} of battery {pack.key} are joined{_how(pack)}, and there are {many}."
        yield _same(text, many == 0 or joined <= many or many == 1, pack.where, pack.where)
