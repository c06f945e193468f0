"""A wire that leads nowhere.

Checks: both ends of a wire are different contacts, and neither is one that the part leaves
unconnected.
Why: it was meant to go somewhere else.
Example: a wire from camera.5V to a contact marked unconnected.
Mend: give it its right end, or take it out.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, Outcome

SEVERITY = Severity.FAULT


def check(case: Case) -> Iterator[Outcome]:
    for run in case.build.wires:
        loose = [c for c in (run.start, run.end) if case.build.pad(c).role == "unconnected"]
        if run.start == run.end:
            yield Found(
                f"This wire begins and ends at {run.start}.", "Give it its right end.", run.where
            )
        elif loose:
            yield Found(
                f"{loose[0]} is not connected to anything inside its part.",
                "Give the wire its right end.",
                run.where,
            )
        else:
            yield Judged()
