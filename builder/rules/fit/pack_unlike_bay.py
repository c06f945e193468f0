"""A battery that does not go into its bay, or that its strap does not reach round.

Checks: length and width of each battery against the bay that the frame names. It is a fault where
the bay is a slot without a strap, else a remark. The length of the straps is compared with the way
round the battery.
Why: a battery that stands over lies against a propeller or falls out.
Example: a battery of 78 mm in a closed bay of 62 mm.
Mend: take a shorter battery, or another frame.
Source: common practice, no source
"""

from collections.abc import Iterator
from math import fsum

from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.model.build import Build, FittedAs, FittedPack
from builder.model.kinds import Frame, Hardware
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
_OVER = assumed("mounting/battery-over-plate")
_ROUND = assumed("mounting/strap-round")


def _bay(build: Build, frame: FittedAs[Frame], pack: FittedPack) -> Iterator[Outcome]:
    bay, size = frame.part.bay, pack.part.size
    if bay is None:
        return
    if size is None:
        yield NotJudged(f"size of battery {pack.key}", pack.shelf_where)
        return
    room, needs = sorted(bay.along[:2]), sorted(size.along[:2])
    over = [(r, n) for r, n in zip(room, needs, strict=False) if n > r * (1 + 1e-9)]
    strapped = any(s.part.width is not None for s in build.of_kind(Hardware))
    if not over:
        yield Judged()
        return
    room_for, long = over[-1]
    text = say(
        "Battery {} is {} where the bay of {} has {}.",
        pack.key,
        given(long, "m"),
        frame.key,
        given(room_for, "m"),
    )
    mild = strapped and all(n <= r * _OVER for r, n in over)
    hint = "Lay it so that no propeller can reach it." if mild else "Take a smaller battery."
    severity = Severity.REMARK if mild else None
    yield clash(text, hint, pack.where, frame.shelf_where.at("bay"), severity)


def _strap(build: Build, pack: FittedPack) -> Iterator[Outcome]:
    size = pack.part.size
    if size is None or len(size.along) < 3:
        return
    straps = [
        s for s in build.of_kind(Hardware) if s.part.width is not None and s.part.size is not None
    ]
    around = 2 * fsum(sorted(size.along)[:2])
    for strap in straps:
        length = max(strap.part.size.along) if strap.part.size is not None else 0.0
        if length >= _ROUND * around:
            yield Judged()
            continue
        text = say(
            "{} is {} long; the way round battery {} is {}.",
            strap.key,
            given(length, "m"),
            pack.key,
            made(around, "m"),
        )
        yield clash(text, "Take a longer strap.", strap.where, pack.shelf_where.at("size"))


def check(case: Case) -> Iterator[Outcome]:
    for pack in case.build.packs.values():
        for frame in case.build.of_kind(Frame):
            yield from _bay(case.build, frame, pack)
        yield from _strap(case.build, pack)
