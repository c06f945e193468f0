"""Coating before the gates of the open frame have passed.

Checks: where the builder's own coating steps stand, against the gates of the first power-up, but
for the one with the frame closed.
Why: solder does not take on coating. A board that has to be repaired must be scraped bare first.
Example: a coating step that is to come before gate B.
Mend: let it come after the gate of the loads.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.joints.bench_pieces import coating_steps
from builder.compute.order.steps.work_step import LAST_GATE
from builder.compute.order.work_order import Cycle, Plan
from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, Outcome

SEVERITY = Severity.FAULT


def _gate_after(order: Plan, step: str) -> str:
    """The last gate of the open frame that comes after a step, or ''."""
    place = {s.id: i for i, s in enumerate(order.steps)}
    at = place.get(step, len(place))
    gates = [s for s in order.steps if s.gate and s.id != LAST_GATE]
    later = [s.gate for s in gates if place[s.id] > at]
    return later[-1] if later else ""


def check(case: Case) -> Iterator[Outcome]:
    order = case.whole.order
    for i, step in coating_steps(case.build):
        where = case.build.where("steps", i)
        hint = "Let it come after the gate of the loads."
        if isinstance(order, Cycle):
            if any(step.id in (c.before, c.after) for c in order.constraints):
                yield Found(f"{step.id} coats before a gate has passed.", hint, where)
            continue
        gate = _gate_after(order, step.id)
        if gate:
            yield Found(f"{step.id} coats before gate {gate} has passed.", hint, where)
        else:
            yield Judged()
