"""Nobody can tell which switch arms the motors.

Checks: that exactly one switch of a build that flies has `arms: yes`, and that it has a position in
which the motors are safe. Words under `does` are for people: they decide nothing.
Why: who takes the wrong switch for the safe one stands beside motors that can start.
Example: two switches with `arms: yes`.
Mend: write `arms: yes` at the one that arms, and name its positions, the safe one first.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.rules.compare import clash
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_LACKS = "which switch arms the motors: write 'arms: yes' there"


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    switches, at = build.source.setup.switches, build.where("setup", "switches")
    arming = [i for i, switch in enumerate(switches) if switch.arms]
    if not arming:
        if build.source.status == "flying":
            yield NotJudged(_LACKS, at if switches else build.where("setup"))
        return
    first = switches[arming[0]]
    for other in arming[1:]:
        text = f"Two switches arm the motors: {first.name!r} and {switches[other].name!r}."
        hint = "Leave 'arms: yes' at the one that is set so."
        yield clash(text, hint, at.at(other, "arms"), at.at(arming[0], "arms"))
    if len(first.positions) == 1:
        text = f"{first.name!r} arms the motors, and has one position only."
        hint = "Name all its positions, the safe one first."
        yield Found(text, hint, at.at(arming[0], "positions"))
    elif len(arming) == 1:
        yield Judged()
