"""A stack in the screw list that the posts or the boards are too low or too high for.

Checks: the layers that one screw passes through, less the plate, against the posts of the frame.
Soft mounts in the list are compared with the height that the boards name for theirs. Where a layer is
named as a board, there are as many of them as boards with holes for these screws.
Why: the screws and the posts are bought by one of the two lists, and the top plate presses on the
board.
Example: layers of 31 mm between plates whose posts are 26 mm.
Mend: measure the stack, and correct the list or the posts.
Source: common practice, no source
"""

import re
from collections.abc import Iterator, Sequence
from math import fsum

from builder.compute.geometry.screws import ScrewRow, thread_diameter
from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.model.build import Build, FittedAs, ScrewPlace
from builder.model.kinds import FlightController, SpeedController
from builder.rules.compare import clash
from builder.rules.fit._airframe import frames
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
YIELDS_TO = (
    "fit/stack-too-high",
    "fit/screw-grips-little",
    "fit/screw-too-long",
)
_SAME = assumed("mounting/layers")
_BOARD = re.compile(r"\b(boards?|controllers?|esc)\b")
_PLATES = ("base plate", "bottom plate", "plate", "frame post foot", "arm")


def _is_stack(row: ScrewRow) -> bool:
    return row.open_behind and len(row.through) > 1


def _posts(build: Build, place: ScrewPlace, row: ScrewRow) -> Iterator[Outcome]:
    between = [(i, t) for i, (what, t) in enumerate(row.through) if what.casefold() not in _PLATES]
    height = fsum(t for _, t in between)
    for fitted, frame in frames(build):
        if frame.posts is None:
            yield NotJudged(f"height of the posts of {fitted.key}", fitted.shelf_where)
            continue
        if height <= frame.posts.value:
            yield Judged()
            continue
        text = say(
            "The layers at {} are {} between the plates; the posts of {} are {}.",
            row.place,
            made(height, "m"),
            fitted.key,
            given(frame.posts.value, "m"),
        )
        hint = "Measure the stack, and correct the layers or the posts."
        yield clash(text, hint, place.where.at("through"), fitted.shelf_where.at("posts"))


def _mounts(build: Build, place: ScrewPlace, row: ScrewRow) -> Iterator[Outcome]:
    boards: list[FittedAs[SpeedController] | FittedAs[FlightController]] = []
    boards += [*build.of_kind(SpeedController), *build.of_kind(FlightController)]
    said = [(f, mount) for f in boards if (mount := f.part.soft_mount) is not None]
    for i, (what, thick) in enumerate(row.through):
        if what.casefold() not in ("soft mount", "soft mounts") or not said:
            continue
        near = min(said, key=lambda b: abs(b[1].value - thick))
        if abs(near[1].value - thick) <= _SAME:
            yield Judged()
            continue
        text = say(
            "The soft mount at {} is {} high; that of {} is {}.",
            row.place,
            given(thick, "m"),
            near[0].key,
            given(near[1].value, "m"),
        )
        at = place.where.at("through", i, "thick")
        yield clash(text, "Measure the soft mount.", at, near[0].shelf_where.at("soft_mount"))


def _bored(build: Build, thread: float) -> int:
    """How many boards have holes for screws of this thread."""
    # a combined board is both, and one board
    boards = {f.key: (f.count, f.part.pattern) for f in build.of_kind(SpeedController)}
    boards |= {f.key: (f.count, f.part.pattern) for f in build.of_kind(FlightController)}
    holes = [(count, own) for count, own in boards.values() if own is not None]
    return sum(count for count, own in holes if thread_diameter(own.thread) == thread)


def _boards(build: Build, places: Sequence[tuple[ScrewPlace, ScrewRow]]) -> Iterator[Outcome]:
    """Boards that no layer names: the screws are bought by the thickness of the list."""
    stacks = [(place, thread_diameter(row.thread), row) for place, row in places if _is_stack(row)]
    for thread in dict.fromkeys(t for _, t, _ in stacks if t is not None):
        mine = [(place, row) for place, t, row in stacks if t == thread]
        named = sum(bool(_BOARD.search(w.casefold())) for _, row in mine for w, _ in row.through)
        bored = _bored(build, thread)
        if not named or not bored:
            continue
        if named >= bored:
            yield Judged()
            continue
        place, row = mine[0]
        text = (
            f"{bored} boards have holes for {row.thread}; the layers at {row.place} name {named}."
        )
        hint = "Name every board among the layers, and look at the length of the screws again."
        yield Found(text, hint, place.where.at("through"), severity=Severity.REMARK)


def check(case: Case) -> Iterator[Outcome]:
    places = list(zip(case.build.screws, case.results.screws, strict=True))
    yield from _boards(case.build, places)
    for place, row in places:
        if _is_stack(row):
            yield from _posts(case.build, place, row)
            yield from _mounts(case.build, place, row)
