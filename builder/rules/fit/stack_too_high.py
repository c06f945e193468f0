"""A stack of boards that is higher than the posts.

Checks: boards and soft mounts (compressed to 85 %) against the posts of the frame: above them a
fault, with less than 1 mm to spare a remark.
Why: the top plate presses on the parts of the upper board.
Example: 31 mm of boards under posts of 26 mm.
Mend: longer posts, flatter boards, or thinner soft mounts.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Unknown
from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.rules.fit._airframe import frames
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.FAULT
_SPARE = assumed("mounting/stack-spare")


def check(case: Case) -> Iterator[Outcome]:
    for stack in case.results.stacks:
        first = case.build.parts[stack.boards[0]]
        room, height, posts = stack.room, stack.height, stack.posts
        if isinstance(room, Unknown) or isinstance(height, Unknown) or isinstance(posts, Unknown):
            for missing in room.missing if isinstance(room, Unknown) else ():
                yield NotJudged(missing, first.where)
            continue
        at = next(
            (f.shelf_where.at("posts") for f, p in frames(case.build) if p.posts), first.where
        )
        leave = given(posts.value, "m", posts.key)
        text = say("{} stand {} high; the posts leave {}.", ", ".join(stack.boards), height, leave)
        if room.value < 0.0:
            yield Found(text, "Take longer posts, or thinner soft mounts.", at, see=(first.where,))
        elif room.value < _SPARE:
            yield Found(
                text,
                "Feel for contact before the top plate is tight.",
                at,
                severity=Severity.REMARK,
                see=(first.where,),
            )
        else:
            yield Judged()
