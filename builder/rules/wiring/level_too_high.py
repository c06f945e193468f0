"""More volts on a signal pad than it tolerates.

Checks: on each signal net the highest level that a contact puts out against what each contact of
another part tolerates.
Why: 5 V on a pad that tolerates 3.3 V harms the processor behind it.
Example: a receiver that sends 5 V on a pad that tolerates 3.3 V.
Mend: take a pad that tolerates it, or put a level shifter between.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, say
from builder.rules.wiring._nets import families, joined_nets, where_joined, with_roles

SEVERITY = Severity.FAULT
_OUT = ("sends", "one-wire", "drive-out", "light-out", "clock", "data", "sense")
_IN = ("listens", "one-wire", "drive-in", "light-in", "clock", "data", "sense")
_LEAST = assumed("wires/signal-bears")
_SLACK = assumed(
    "wires/signal-slack"
)  # a tolerance of 3.3 V is met by a 3.3 V output at its upper end


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    for net in joined_nets(case):
        if len(families(case, net)) > 1:
            continue
        outs = [
            (c, v.value)
            for c in with_roles(case, net, *_OUT)
            if (v := build.pad(c).level) is not None
        ]
        for i in with_roles(case, net, *_IN):
            levels = [(level, o) for o, level in outs if o.board != i.board]
            if not levels:
                continue
            level, o = max(levels)
            put_out = given(level, "V")
            takes, own = build.pad(i).tolerates, build.pad(i).level
            if takes is not None and level > _SLACK * takes.value:
                yield Found(
                    say(
                        "{} puts out {}, and {} tolerates {}.",
                        o,
                        put_out,
                        i,
                        given(takes.value, "V"),
                    ),
                    "Take a pad that tolerates it, or put a level shifter between.",
                    where_joined(case, [o], net),
                )
            elif takes is None and level > _SLACK * (own.value if own is not None else _LEAST):
                yield NotJudged(
                    say("what {} tolerates ({} puts out {})", i, o, put_out),
                    build.parts[i.part].shelf_where,
                )
            else:
                yield Judged()
