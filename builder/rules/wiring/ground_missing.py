"""A powered part without a ground.

Checks: each part that is joined to a supply or to a signal also has a ground contact joined to the common ground.
Why: current finds its way back through the signal lines, and takes them with it.
Example: a camera with 5 V and video wired, and no ground.
Mend: add the ground wire.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
_LIVE = (
    "draws",
    "sends",
    "listens",
    "one-wire",
    "video-out",
    "video-in",
    "light-in",
    "light-out",
    "drive-in",
    "clock",
    "data",
)


def check(case: Case) -> Iterator[Outcome]:
    nets = case.results.netlist
    grounds = [n for n in nets.nets if sum(1 for c in n.contacts if case.build.pad(c).role == "ground") > 0]
    common = max(grounds, key=lambda n: len(n.boards), default=None)
    for fitted in case.build.parts.values():
        for piece in fitted.pieces:
            own = [c for c in case.build.contacts if (c.part, c.piece) == (fitted.key, piece)]
            live = [c for c in own if c in nets.at and case.build.pad(c).role in _LIVE]
            if not live:
                continue
            ground = [c for c in own if case.build.pad(c).role == "ground"]
            switched = [c for c in own if case.build.pad(c).role == "sink" or case.build.pad(c).polarity == "minus"]
            if not ground and switched:
                continue  # its minus is switched by a board: wiring/sink-bypassed looks at it
            if not ground:
                yield NotJudged(f"the ground contact of {fitted.key}", fitted.shelf_where)
            elif any(nets.of[c] is common for c in ground):
                yield Judged()
            else:
                yield Found(
                    f"{own[0].board} is wired ({', '.join(c.pad for c in live)}), and no ground of it reaches the rest.",
                    f"Join {ground[0]} to a ground of the board that feeds it.",
                    fitted.where,
                )
