"""The order of work: what the tool insists on in the cheapest order, then the builder's own lines
with few moves.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from builder.compute.joints.joints import Joint
from builder.compute.order.builder_lines import place_own
from builder.compute.order.builder_steps import own_steps
from builder.compute.order.constraints.order_cycle import find_cycle, loosened
from builder.compute.order.constraints.order_rules import constrain
from builder.compute.order.contraction import as_single_steps, drawn_together, taken_apart
from builder.compute.order.search.order_search import EXACT, Tally, cheapest, plain_order, tally
from builder.compute.order.step_groups import kindred_steps, named_groups, with_common_irons
from builder.compute.order.steps.step_list import step_list
from builder.compute.order.steps.work_step import Constraint, StepGroup, WorkStep
from builder.compute.power_up.gate import Gate
from builder.model.build import Build


@dataclass(frozen=True, eq=False)
class Plan:
    """The steps in order, every constraint, the changes on the way, and those of a plain
    topological order of the same steps, in which nothing is drawn together.

    `exact` says that without the builder's own lines no order of the groups costs less. `unknown`
    are names that mean no step. `dropped` are constraints of our own that this hardware does not
    let stand together with the others. `grouped` are the same steps in the same order, as the hand
    takes them: each of its groups is one step; without them each stands alone.
    """

    steps: tuple[WorkStep, ...]
    constraints: tuple[Constraint, ...]
    changes: Tally
    plain: Tally
    exact: bool
    unknown: tuple[str, ...]
    dropped: tuple[Constraint, ...] = ()
    grouped: tuple[StepGroup, ...] = ()

    @cached_property
    def groups(self) -> tuple[StepGroup, ...]:
        """The steps as the hand takes them, in order."""
        return self.grouped or tuple(StepGroup(s.id, s.text, (s,)) for s in self.steps)

    @cached_property
    def numbers(self) -> Mapping[str, int]:
        """The number of each step on the sheet: that of its group. Gates have none: 0."""
        found: dict[str, int] = {}
        at = 0
        for group in self.groups:
            at += 0 if group.gate else 1
            found |= dict.fromkeys((s.id for s in group.steps), 0 if group.gate else at)
        return found

    def waits_for(self, step: str) -> Constraint | None:
        """Why a step stands where it does: of all that has to come before it, what comes last."""
        return self._last.get(step)

    def group_waits_for(self, group: StepGroup) -> Constraint | None:
        """Why a group stands where it does: of all outside it that comes before, what is last."""
        inside = {s.id for s in group.steps}
        numbers = sorted(i for step in inside for i in self._before.get(step, ()))
        rows = (self.constraints[i] for i in numbers)
        before = [c for c in rows if c.before not in inside]
        return max(before, key=lambda c: self._place[c.before], default=None)

    @cached_property
    def _before(self) -> Mapping[str, tuple[int, ...]]:
        """Which constraints, by number, a step waits for."""
        rows: dict[str, list[int]] = {}
        for i, constraint in enumerate(self.constraints):
            rows.setdefault(constraint.after, []).append(i)
        return {step: tuple(row) for step, row in rows.items()}

    @cached_property
    def _place(self) -> Mapping[str, int]:
        return {s.id: i for i, s in enumerate(self.steps)}

    @cached_property
    def _last(self) -> dict[str, Constraint]:
        found: dict[str, Constraint] = {}
        for c in sorted(self.constraints, key=lambda c: -self._place[c.before]):
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


def _one_iron(groups: Sequence[StepGroup]) -> bool:
    """Whether no group changes the iron within itself, where the search does not look."""
    hot = [{(s.tip, s.iron) for s in g.steps if s.tip} for g in groups]
    return all(len(irons) < 2 for irons in hot)


def work_order(build: Build, joints: tuple[Joint, ...], gates: tuple[Gate, ...]) -> Plan | Cycle:
    """The plan of a build, or the cycle that the builder's own lines make."""
    lines = order_lines(build, joints, gates)
    cycle = find_cycle(lines.steps, lines.all)
    if cycle:
        return Cycle(cycle, lines.unknown)
    steps = with_common_irons(build, lines.steps, joints)
    together = kindred_steps(build, steps)
    home = drawn_together(tuple(steps), together, lines.all)
    base_steps = {n: s for n, s in steps.items() if n in lines.base_steps}
    base, exact = cheapest(*as_single_steps(base_steps, lines.base, home))
    every, between = as_single_steps(steps, lines.all, home)
    order = place_own(base, every, between)
    rows = taken_apart(order, steps, home, together, lines.all)
    groups = named_groups(build, rows, steps)
    return Plan(
        tuple(s for row in rows for s in row),
        lines.all,
        tally(order),
        tally(plain_order(steps, lines.all)),
        exact and _one_iron(groups),
        lines.unknown,
        lines.dropped,
        groups,
    )
