"""A 3.3 V output into an input of 5 V logic.

Checks: the level that an output puts out against the level at which an input of another part works.
Why: it mostly works and sometimes flickers, above all in the cold and over long wires.
Example: a board's 3.3 V light output into lights that run on 5 V.
Mend: none needed if it works; else a level shifter, or feed the lights a little less than 5 V.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.wiring._nets import joined_nets, where_joined, with_roles

SEVERITY = Severity.REMARK


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    for net in joined_nets(case):
        for i in with_roles(case, net, "light-in", "listens", "drive-in"):
            works = build.pad(i).level
            outs = [o for o in with_roles(case, net, "light-out", "sends", "drive-out") if o.board != i.board]
            levels = [(o, level) for o in outs if (level := build.pad(o).level) is not None]
            if works is None or not levels:
                continue
            o, level = levels[0]
            if level.value < 0.7 * works.value:
                yield Found(
                    f"{o} puts out {level.value:g} V into {i}, which works at {works.value:g} V.",
                    "Watch for flicker; a level shifter mends it.",
                    where_joined(case, [i], net),
                )
            else:
                yield Judged()
