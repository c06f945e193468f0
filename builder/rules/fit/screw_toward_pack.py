"""A screw that ends toward the pack.

Checks: screws whose end is said to face the pack or its bay (`behind:`), and that do not end inside their thread.
Why: a screw's end that is driven into a lithium cell in a landing starts a fire that cannot be put out.
Example: stack screws from above, their ends standing out of the nuts over the pack.
Mend: turn them round, so that the heads face the pack, or take shorter ones and cap the nuts.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.figure import Unknown
from builder.diagnostics.finding import Severity, Signal
from builder.rules.fit._airframe import MM
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.DANGER
_WORDS = ("pack", "battery", "cell", "bay")
_NUT = 0.8  # height of a nut in diameters (ISO 4032: 1.6 mm for M2, 2.4 mm for M3)


def check(case: Case) -> Iterator[Outcome]:
    for row in case.results.screws:
        if not any(word in row.behind.casefold() for word in _WORDS):
            if row.behind:
                yield Judged()
            continue
        if isinstance(row.length, Unknown) or isinstance(row.passed, Unknown):
            unknown = row.length if isinstance(row.length, Unknown) else row.passed
            for missing in unknown.missing if isinstance(unknown, Unknown) else ():
                yield NotJudged(missing, row.where)
            continue
        out = row.length.value - row.passed.value
        if row.open_behind and not isinstance(row.grip_diameters, Unknown) and not isinstance(row.grip, Unknown):
            turns = row.grip_diameters.value
            out -= _NUT * row.grip.value / turns if turns else 0.0
        elif not row.open_behind and row.into and not isinstance(row.depth, Unknown):
            out -= row.depth.value
        if out > 0.0:
            yield Found(
                f"{row.name} at {row.place} stands out by {MM * out:.1f} mm toward {row.behind}.",
                "Turn it round so that its head faces the pack, or take a shorter one.",
                row.where,
            )
        else:
            yield Judged()
