"""An order of work that contradicts itself.

Checks: whether the builder's own before and after can be kept together with what the order insists
on. What the order insists on by itself never counts against the builder. Where the hardware does not
allow two such lines together, the softer one is dropped.
Why: a cover shrunk before its antenna is on has to be cut off again; such an order cannot be
followed.
Example: a step that is to come after a cover and before the antenna that goes under it.
Mend: take out or turn round the line of the cycle that is yours.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.order.steps.work_step import Why
from builder.compute.order.work_order import Cycle
from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT


def check(case: Case) -> Iterator[Outcome]:
    order = case.whole.order
    if not isinstance(order, Cycle):
        yield Judged()
        return
    mine = [c for c in order.constraints if c.why == Why.BUILDER]
    if not mine:  # never met: constraints of our own are loosened before the builder's are asked
        yield NotJudged(
            "an order of work: lines of Benchleaf itself contradict each other. This is an error of"
            " Benchleaf, not of the build; please report it",
            case.build.where("steps"),
        )
        return
    own = {s.id: i for i, s in enumerate(case.build.source.steps)}
    named = [own[n] for c in mine for n in (c.before, c.after) if n in own]
    where = case.build.where("steps", named[0]) if named else case.build.where("steps")
    lines = "; ".join(f"{c.before} before {c.after} ({c.reason})" for c in order.constraints)
    yours = " and ".join(f"'{c.before} before {c.after}'" for c in mine)
    yield Found(
        f"These lines of the order contradict each other: {lines}.",
        f"Take out or turn round {'a line' if len(mine) > 1 else 'the line'} that is yours:"
        f" {yours}.",
        where,
    )
