"""A strap that does not go through the frame's slots.

Checks: the width of each strap among the hardware against the widest that the frame names, and
against the slots. A frame's widest strap is not wider than its slots. A frame with slots has a strap, where there is
a battery to hold.
Why: a strap that is folded to go through slips, and the battery leaves the aircraft in a turn.
Example: a strap of 20 mm for slots of 15 mm.
Mend: take the strap that the frame names.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.model.build import Build, FittedAs
from builder.model.kinds import Frame, Hardware
from builder.rules.compare import clash
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.FAULT


def _frame(frame: FittedAs[Frame]) -> Iterator[Outcome]:
    slot, widest = frame.part.strap_slot, frame.part.strap_width
    if slot is None or widest is None:
        return
    if widest.value <= slot.value:
        yield Judged()
        return
    text = say(
        "{} takes straps of {}, and its slots are {}.",
        frame.key,
        given(widest.value, "m"),
        given(slot.value, "m"),
    )
    at = frame.shelf_where
    yield clash(text, "Measure the slot.", at.at("strap_width"), at.at("strap_slot"))


def _held(build: Build, frame: FittedAs[Frame]) -> Iterator[Outcome]:
    """A frame with slots for straps, and batteries that nothing holds."""
    slots = frame.part.strap_slot or frame.part.strap_width
    if slots is None or not build.packs:
        return
    if any(h.part.form == "strap" or h.part.width is not None for h in build.of_kind(Hardware)):
        yield Judged()
        return
    text = f"{frame.key} has slots for a strap, and no strap is listed."
    hint = "List the strap, so that the battery is held and weighed."
    yield Found(text, hint, frame.where, severity=Severity.REMARK)


def _straps(build: Build, frame: FittedAs[Frame]) -> Iterator[Outcome]:
    by = "strap_slot" if frame.part.strap_width is None else "strap_width"
    room = frame.part.strap_width or frame.part.strap_slot
    for strap in build.of_kind(Hardware):
        width = strap.part.width
        if width is None:
            continue
        if room is None:
            yield NotJudged(f"slots for straps of {frame.key}", frame.shelf_where)
        elif width.value <= room.value:
            yield Judged()
        else:
            text = say(
                "{} is {} wide; {} takes {}.",
                strap.key,
                given(width.value, "m"),
                frame.key,
                given(room.value, "m"),
            )
            hint = "Take a narrower strap."
            yield clash(text, hint, strap.where, frame.shelf_where.at(by))


def check(case: Case) -> Iterator[Outcome]:
    for frame in case.build.of_kind(Frame):
        yield from _frame(frame)
        yield from _held(case.build, frame)
        yield from _straps(case.build, frame)
