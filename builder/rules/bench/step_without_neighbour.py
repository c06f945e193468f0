"""A step placed beside one that does not exist.

Checks: every name under before and after of the builder's own steps is a step of the order.
Why: the line has no effect, and the step stands somewhere else than meant.
Example: before: mount camra.
Mend: write the step's name as the sheet's order of work has it.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.order.work_order import Plan
from builder.diagnostics.finding import Severity
from builder.diagnostics.nearest import did_you_mean
from builder.rules.rule import Case, Found, Judged, Outcome

SEVERITY = Severity.REMARK


def check(case: Case) -> Iterator[Outcome]:
    order = case.whole.order
    known = [s.id for s in order.steps] if isinstance(order, Plan) else []
    for i, step in enumerate(case.build.source.steps):
        for field, names in (("before", step.before), ("after", step.after)):
            for name in names:
                if name in order.unknown:
                    yield Found(
                        f"There is no step {name!r} to stand {field}.",
                        did_you_mean(name, known),
                        case.build.where("steps", i, field),
                    )
                else:
                    yield Judged()
