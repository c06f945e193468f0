"""Light data output wired to an output, or inputs without a source.

Checks: a net with light data contacts of more than one part has one output; a board's drive of the
lights counts.
Why: lights take data in at one end and hand it on at the other; the wrong end stays dark.
Example: controller.LAMP to lights.1.OUT.
Mend: turn the row round, or use its other end.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.wiring._nets import boards_apart, joined_nets, named, where_joined, with_roles

SEVERITY = Severity.FAULT


def check(case: Case) -> Iterator[Outcome]:
    for net in joined_nets(case):
        ends = with_roles(case, net, "light-in", "light-out")
        if not boards_apart(ends):
            continue
        outputs = with_roles(case, net, "light-out")
        if len(outputs) != 1:
            what = (
                "Two light data outputs meet" if outputs else "Light data inputs without an output"
            )
            yield Found(
                f"{what}: {named(ends)}.",
                "Data goes from an output into an input.",
                where_joined(case, ends, net),
            )
        else:
            yield Judged()
