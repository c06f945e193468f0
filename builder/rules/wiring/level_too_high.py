"""More volts on a signal pad than it tolerates.

Checks: on each signal net the highest level that a contact puts out against what each other contact tolerates; and
whether a 3.3 V output feeds an input of 5 V logic.
Why: 5 V on a pad that tolerates 3.3 V harms the processor; the other way round the line may be read wrongly.
Example: a 5 V receiver's TX on a pad that tolerates 3.3 V.
Mend: take a pad that tolerates it, or put a level shifter between.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.wiring._nets import boards_apart, joined_nets, where_joined, with_roles

SEVERITY = Severity.FAULT
_OUT = ("sends", "one-wire", "drive-out", "light-out", "clock", "data")
_IN = ("listens", "sends", "one-wire", "drive-in", "light-in", "clock", "data", "sense")


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    for net in joined_nets(case):
        outs = [c for c in with_roles(case, net, *_OUT) if build.pad(c).level is not None]
        ins = [
            c
            for c in with_roles(case, net, *_IN)
            if build.pad(c).tolerates is not None or build.pad(c).level is not None
        ]
        pairs = [(o, i) for o in outs for i in ins if o.board != i.board]
        if not pairs or not boards_apart(outs + ins):
            continue
        bad = None
        for o, i in pairs:
            level, pad = build.pad(o).level, build.pad(i)
            if level is not None and pad.tolerates is not None and level.value > 1.05 * pad.tolerates.value:
                bad = Found(
                    f"{o} puts out {level.value:g} V, and {i} tolerates {pad.tolerates.value:g} V.",
                    "Take a pad that tolerates it, or put a level shifter between.",
                    where_joined(case, [o], net),
                )
        yield bad or Judged()
