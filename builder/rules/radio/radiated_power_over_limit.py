"""Radiated power over the limit.

Checks: power of the transmitter with its antenna's gain, as e.i.r.p., against the limit of the
range it sends in.
Why: the limit counts what leaves the antenna, so that a gain of 3 dB doubles a power that was
allowed.
Example: 25 mW on an antenna of 2 dBi radiates 39.6 mW where 25 mW is allowed.
Mend: set a smaller power step, or an antenna of less gain.
Source: ITU Radio Regulations 1.161 for e.i.r.p.; the limits of site.yaml, each with its own source
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Unknown
from builder.diagnostics.finding import Severity, Signal
from builder.rounding import MILLIWATTS
from builder.rules.compare import EXACT
from builder.rules.radio._links import links
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import figure, given, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING


def check(case: Case) -> Iterator[Outcome]:
    for link, where in links(case):
        if link.allowed is None:
            continue
        limit = link.allowed.eirp
        if limit is None:
            yield NotJudged(f"e.i.r.p. limit of the range for {link.serves} unknown", where)
        elif isinstance(link.radiated, Unknown):
            yield NotJudged(f"{', '.join(link.radiated.missing)} unknown", where)
        elif link.radiated.value > limit.value * (1 + EXACT):
            got = figure(link.radiated, shown_as=MILLIWATTS)
            may = given(limit.value, "W", shown_as=MILLIWATTS)
            message = say("The {} link radiates {} e.i.r.p.; {} is allowed.", link.serves, got, may)
            yield Found(message, "Set a smaller power step, or an antenna of less gain.", where)
        else:
            yield Judged()
