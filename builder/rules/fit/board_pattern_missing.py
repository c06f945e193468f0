"""A board whose holes the frame does not have.

Checks: the hole pattern of each board that is screwed down against the patterns of the frame,
within 0.3 mm.
Why: it cannot be mounted, and drilling carbon beside electronics shorts what the dust falls on.
Example: a board of 25.5 x 25.5 mm on a frame with 20 x 20 mm.
Mend: take a board of the frame's pattern, another frame, or an adapter plate named among its
patterns.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.geometry.stack import stacked_boards
from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.model.values.lengths_text import Pattern
from builder.rules.fit._airframe import frames
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
_SLACK = assumed("mounting/board-pattern")


def _alike(a: Pattern, b: Pattern) -> bool:
    first = sorted((a.across, a.along if a.along is not None else a.across))
    second = sorted((b.across, b.along if b.along is not None else b.across))
    return all(abs(x - y) <= _SLACK for x, y in zip(first, second, strict=True))


def check(case: Case) -> Iterator[Outcome]:
    for frame, part in frames(case.build):
        for board in stacked_boards(case.build):
            pattern = getattr(board.part, "pattern", None)
            if pattern is None:
                yield NotJudged(f"hole pattern of {board.key}", board.shelf_where)
            elif not part.patterns:
                yield NotJudged(f"hole patterns of {frame.key}", frame.shelf_where)
            elif not any(_alike(pattern, p) for p in part.patterns):
                has = ", ".join(p.label for p in part.patterns)
                yield Found(
                    f"{board.key} has holes of {pattern.label}, and {frame.key} has {has}.",
                    "Take a board of the frame's pattern.",
                    board.where,
                    see=(frame.where,),
                )
            else:
                yield Judged()
