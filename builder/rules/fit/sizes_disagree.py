"""Sizes of one part that cannot both be right.

Checks: the height of a board or a motor, and the width of a camera, against the outer size. The
wheelbase of a frame, and its size, are compared with the places of its motors. The holes of a board
lie within its size. The thread in a motor's hole pattern
is compared with its thread. Propellers beside each other are compared with the room between the
motors.
Why: drawings, stacks and clearances use one of the two.
Example: a frame of 225 mm whose motors stand 150 mm apart.
Mend: measure the part, and correct the one that is wrong.
Source: the figures themselves
"""

from collections.abc import Iterator
from itertools import combinations
from math import dist

from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.model.build import Build, Fitted, FittedAs
from builder.model.kinds import Camera, FlightController, Frame, Motor, SpeedController
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
YIELDS_TO = (
    "fit/thread-unlike",
    "fit/camera-width-unlike",
    "fit/propeller-too-large",
    "fit/stack-too-high",
)
_SLIP = assumed("statements/wheelbase")
_ROUNDED = assumed("statements/size")


def _within_size(fitted: Fitted) -> Iterator[Outcome]:
    part = fitted.part
    size = part.size
    boards = isinstance(part, SpeedController | FlightController | Motor)
    name = "height" if boards else "width"
    inner = getattr(part, name, None) if boards or isinstance(part, Camera) else None
    if size is None or inner is None or len(size.along) < 3:
        return
    largest = max(size.along) if name == "height" else max(size.along[:2])
    if inner.value <= largest + _ROUNDED:
        yield Judged()
        return
    text = say(
        "{} has a {} of {}, more than its size of {}.",
        fitted.key,
        name,
        given(inner.value, "m"),
        given(largest, "m"),
    )
    at = fitted.shelf_where
    yield clash(text, "Measure the part.", at.at(name), at.at("size"))


def _wheelbase(frame: FittedAs[Frame]) -> Iterator[Outcome]:
    places, said = frame.part.motors, frame.part.wheelbase
    if not places or said is None or len(places) < 2:
        return
    flat = [(p.x, p.y) for p in places.values()]
    apart = max(dist(a, b) for a, b in combinations(flat, 2))
    if abs(apart - said.value) <= _SLIP * said.value:
        yield Judged()
        return
    text = say(
        "{} has a wheelbase of {}; its motors stand {} apart.",
        frame.key,
        given(said.value, "m"),
        made(apart, "m"),
    )
    at = frame.shelf_where
    yield clash(text, "Measure motor to motor across.", at.at("wheelbase"), at.at("motors"))


def _spans(frame: FittedAs[Frame]) -> Iterator[Outcome]:
    """A frame reaches at least from the motors at one side to those at the other."""
    places, size = frame.part.motors, frame.part.size
    if not places or size is None or len(places) < 2:
        return
    ahead, aside = [p.x for p in places.values()], [p.y for p in places.values()]
    apart = max(max(ahead) - min(ahead), max(aside) - min(aside))
    largest = max(size.along)
    if apart <= largest + _ROUNDED:
        yield Judged()
        return
    text = say(
        "{} measures {} at most; its motors stand {} apart.",
        frame.key,
        given(largest, "m"),
        made(apart, "m"),
    )
    at = frame.shelf_where
    yield clash(text, "Measure the frame.", at.at("size"), at.at("motors"), Severity.REMARK)


def _holes(fitted: Fitted) -> Iterator[Outcome]:
    """The holes of a board lie within it."""
    part = fitted.part
    if not isinstance(part, SpeedController | FlightController):
        return
    pattern, size = part.pattern, part.size
    if pattern is None or size is None:
        return
    across = [way for way in (pattern.across, pattern.along) if way is not None]
    widest, outer = max(across), max(size.along)
    if widest < outer:
        yield Judged()
        return
    text = say(
        "The holes of {} are {} apart, and it measures {}.",
        fitted.key,
        given(widest, "m"),
        given(outer, "m"),
    )
    at = fitted.shelf_where
    yield clash(text, "Measure the board.", at.at("size"), at.at("pattern"))


def _thread(fitted: Fitted) -> Iterator[Outcome]:
    part = fitted.part
    if not isinstance(part, Motor) or part.thread is None or part.pattern is None:
        return
    own = part.pattern.thread
    if own is None:
        return
    if own.casefold() == part.thread.split()[0].casefold():
        yield Judged()
        return
    text = f"The holes of {fitted.key} are {own} by its pattern, and {part.thread} by its thread."
    at = fitted.shelf_where
    yield clash(
        text, "Try a screw, and correct the one that is wrong.", at.at("thread"), at.at("pattern")
    )


def _clear(build: Build, frame: FittedAs[Frame]) -> Iterator[Outcome]:
    """The largest disc that a frame names, against the room between neighbouring motors."""
    places, most = frame.part.motors, frame.part.disc_max
    if not places or most is None:
        return
    # motors above each other share an arm
    flat = {(round(p.x, 4), round(p.y, 4)) for p in places.values()}
    if len(flat) < 2:
        return
    near = min(dist(a, b) for a, b in combinations(flat, 2))
    if most.value <= near:
        yield Judged()
        return
    text = say(
        "{} clears discs of {}; its motors stand {} apart.",
        frame.key,
        given(most.value, "m"),
        made(near, "m"),
    )
    at = frame.shelf_where
    yield clash(text, "Measure motor to motor.", at.at("disc_max"), at.at("motors"))


def check(case: Case) -> Iterator[Outcome]:
    for fitted in case.build.parts.values():
        yield from _within_size(fitted)
        yield from _thread(fitted)
        yield from _holes(fitted)
    for frame in case.build.of_kind(Frame):
        yield from _wheelbase(frame)
        yield from _spans(frame)
        yield from _clear(case.build, frame)
