"""An order of work that contradicts itself.

Checks: whether the builder's own before and after can be kept together with what the order insists on.
Why: a cover shrunk before its antenna is on has to be cut off again; such an order cannot be followed.
Example: a step that is to come after a cover and before the antenna that goes under it.
Mend: take out or turn round the line of the cycle that is yours.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.work_order import Cycle
from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, Outcome

SEVERITY = Severity.FAULT


def check(case: Case) -> Iterator[Outcome]:
    order = case.results.order
    if isinstance(order, Cycle):
        lines = "; ".join(f"{c.before} before {c.after} ({c.reason})" for c in order.constraints)
        own = {s.id: i for i, s in enumerate(case.build.source.steps)}
        mine = next((own[n] for c in order.constraints for n in (c.before, c.after) if n in own), None)
        where = case.build.where("steps", mine) if mine is not None else case.build.where("steps")
        yield Found(
            f"These lines of the order contradict each other: {lines}.",
            "Take out or turn round the line that is yours.",
            where,
        )
    else:
        yield Judged()
