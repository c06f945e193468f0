"""The order of work: what the tool insists on in the cheapest order, then the builder's own lines with few moves."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from builder.compute.joints import Joint
from builder.compute.order_cycle import find_cycle
from builder.compute.order_rules import constrain
from builder.compute.order_search import EXACT, Tally, cheapest, plain_order, tally
from builder.compute.own_steps import own_steps
from builder.compute.place_own import place_own
from builder.compute.power_gates import Gate
from builder.compute.step_list import step_list
from builder.compute.steps import Constraint, WorkStep
from builder.model.build import Build


@dataclass(frozen=True, eq=False)
class Plan:
    """The steps in order, every constraint, the changes on the way, and those of a plain topological order.

    `exact` says that without the builder's own lines no order costs less. `unknown` are names that mean no step.
    """

    steps: tuple[WorkStep, ...]
    constraints: tuple[Constraint, ...]
    changes: Tally
    plain: Tally
    exact: bool
    unknown: tuple[str, ...]

    def waits_for(self, step: str) -> Constraint | None:
        """Why a step stands where it does: of all that has to come before it, what comes last."""
        return self._last.get(step)

    @cached_property
    def _last(self) -> dict[str, Constraint]:
        place = {s.id: i for i, s in enumerate(self.steps)}
        found: dict[str, Constraint] = {}
        for c in sorted(self.constraints, key=lambda c: -place[c.before]):
            found.setdefault(c.after, c)
        return found


@dataclass(frozen=True, eq=False)
class Cycle:
    """Constraints that contradict each other: each leads to the next, the last to the first."""

    constraints: tuple[Constraint, ...]
    unknown: tuple[str, ...] = ()


def sequence(
    steps: Mapping[str, WorkStep], constraints: Sequence[Constraint], bound: int = EXACT
) -> list[WorkStep] | Cycle:
    """The cheapest order that keeps every constraint (a good one beyond the bound), or what stands in its way."""
    cycle = find_cycle(steps, constraints)
    return Cycle(cycle) if cycle else cheapest(steps, constraints, bound)[0]


def work_order(build: Build, joints: tuple[Joint, ...], gates: tuple[Gate, ...]) -> Plan | Cycle:
    """The plan of a build, or the cycle that stands in its way."""
    gathered = step_list(build, joints, gates)
    constrain(build, gathered, joints, gates)
    steps, insisted = dict(gathered.steps), tuple(dict.fromkeys(gathered.constraints))
    unknown = own_steps(build, gathered)
    constraints = tuple(dict.fromkeys(gathered.constraints))
    cycle = find_cycle(gathered.steps, constraints)
    if cycle:
        return Cycle(cycle, unknown)
    base, exact = cheapest(steps, insisted)
    order = place_own(base, gathered.steps, constraints)
    plain = tally(plain_order(gathered.steps, constraints))
    return Plan(tuple(order), constraints, tally(order), plain, exact, unknown)
