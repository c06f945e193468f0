"""The order of work: what the tool insists on in the cheapest order, then the builder's own lines
with few moves.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from builder.compute.joints.joints import Joint
from builder.compute.order.builder_lines import place_own
from builder.compute.order.builder_steps import own_steps
from builder.compute.order.order_cycle import find_cycle, loosened
from builder.compute.order.order_rules import constrain
from builder.compute.order.order_search import EXACT, Tally, cheapest, plain_order, tally
from builder.compute.order.step_list import step_list
from builder.compute.order.steps import Constraint, WorkStep
from builder.compute.power_up.power_gates import Gate
from builder.model.build import Build


@dataclass(frozen=True, eq=False)
class Plan:
    """The steps in order, every constraint, the changes on the way, and those of a plain
    topological order.

    `exact` says that without the builder's own lines no order costs less. `unknown` are names that
    mean no step. `dropped` are constraints of our own that this hardware does not let stand
    together with the others.
    """

    steps: tuple[WorkStep, ...]
    constraints: tuple[Constraint, ...]
    changes: Tally
    plain: Tally
    exact: bool
    unknown: tuple[str, ...]
    dropped: tuple[Constraint, ...] = ()

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
    """The cheapest order that keeps every constraint (a good one beyond the bound), or what stands
    in its way.
    """
    cycle = find_cycle(steps, constraints)
    return Cycle(cycle) if cycle else cheapest(steps, constraints, bound)[0]


@dataclass(frozen=True, eq=False)
class Lines:
    """All steps with what is insisted on: `base` for those without the builder's own, `all` for the
    whole.

    Constraints of our own that contradicted each other are in `dropped`; what is left can do so
    with the builder's only.
    """

    steps: Mapping[str, WorkStep]
    base_steps: Mapping[str, WorkStep]
    base: tuple[Constraint, ...]
    all: tuple[Constraint, ...]
    dropped: tuple[Constraint, ...]
    unknown: tuple[str, ...]


def order_lines(build: Build, joints: tuple[Joint, ...], gates: tuple[Gate, ...]) -> Lines:
    """Steps and constraints of a build, the builder's own with them, without a contradiction of our
    own making.
    """
    gathered = step_list(build, joints, gates)
    constrain(build, gathered, joints, gates)
    base_steps = dict(gathered.steps)
    base, dropped = loosened(base_steps, tuple(dict.fromkeys(gathered.constraints)))
    gathered.constraints[:] = base
    unknown = own_steps(build, gathered)
    constraints, more = loosened(gathered.steps, tuple(dict.fromkeys(gathered.constraints)))
    kept = tuple(c for c in base if c not in more)
    return Lines(gathered.steps, base_steps, kept, constraints, (*dropped, *more), unknown)


def work_order(build: Build, joints: tuple[Joint, ...], gates: tuple[Gate, ...]) -> Plan | Cycle:
    """The plan of a build, or the cycle that the builder's own lines make."""
    lines = order_lines(build, joints, gates)
    cycle = find_cycle(lines.steps, lines.all)
    if cycle:
        return Cycle(cycle, lines.unknown)
    base, exact = cheapest(lines.base_steps, lines.base)
    order = place_own(base, lines.steps, lines.all)
    plain = tally(plain_order(lines.steps, lines.all))
    return Plan(tuple(order), lines.all, tally(order), plain, exact, lines.unknown, lines.dropped)
