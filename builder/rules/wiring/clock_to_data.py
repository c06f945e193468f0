"""A clock line wired to a data line.

Checks: clock contacts meet clock contacts only, data contacts data contacts only.
Why: a compass or sensor on crossed lines is not found by the board.
Example: compass.SCL to controller.SDA.
Mend: swap the two wires.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.wiring._nets import joined_nets, named, where_joined, with_roles

SEVERITY = Severity.FAULT


def check(case: Case) -> Iterator[Outcome]:
    for net in joined_nets(case):
        clocks, data = with_roles(case, net, "clock"), with_roles(case, net, "data")
        if clocks and data:
            yield Found(
                f"A clock line meets a data line: {named(clocks + data)}.",
                "Swap the two wires.",
                where_joined(case, data, net),
            )
        elif clocks or data:
            yield Judged()
