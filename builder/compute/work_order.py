"""The order of work: among all orders that keep the constraints, one with few changes of tip, iron, board and side.

Objective: the sum over neighbouring steps of 3 for another tip (the iron's temperature changes with it), 2 for another
board, 2 for another side, 1 for another kind of doing, and 12 for each phase that is gone back by. Exact by dynamic
programming over sets up to EXACT steps; beyond it the cheapest next step is taken, ties by phase and then by name, and
the order is improved by moving single steps as long as that helps. Ties are always broken the same way.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from builder.compute.joints import Joint
from builder.compute.order_rules import constrain
from builder.compute.steps import Constraint, WorkStep, gather
from builder.model.build import Build

EXACT = 13  # steps; 2^13 sets times 13 last steps
_TIP, _BOARD, _SIDE, _DO, _BACK = 3, 2, 2, 1, 12
_IMPROVING_ROUNDS = 3


@dataclass(frozen=True, eq=False)
class Plan:
    """The steps in order, every constraint, the cost, and what a plain topological order would cost."""

    steps: tuple[WorkStep, ...]
    constraints: tuple[Constraint, ...]
    cost: int
    plain_cost: int
    unknown: tuple[str, ...]

    def reasons(self, step: str) -> tuple[str, ...]:
        """Why a step stands after what stands before it, each reason once."""
        return tuple(dict.fromkeys(c.reason for c in self.constraints if c.after == step))


@dataclass(frozen=True, eq=False)
class Cycle:
    """Constraints that contradict each other: each leads to the next, the last to the first."""

    constraints: tuple[Constraint, ...]
    unknown: tuple[str, ...] = ()


def step_cost(a: WorkStep, b: WorkStep) -> int:
    """What it costs to go from one step to the next."""
    cost = 0
    if a.tip and b.tip and a.tip != b.tip:
        cost += _TIP
    if a.board != b.board:
        cost += _BOARD
    elif a.side != b.side:
        cost += _SIDE
    if a.do != b.do:
        cost += _DO
    return cost + _BACK * max(0, a.phase - b.phase)


def order_cost(order: Sequence[WorkStep]) -> int:
    """The objective of an order."""
    return sum(step_cost(a, b) for a, b in pairwise(order))


def _after(steps: Mapping[str, WorkStep], constraints: Sequence[Constraint]) -> dict[str, set[str]]:
    before: dict[str, set[str]] = {s: set() for s in steps}
    for c in constraints:
        before[c.after].add(c.before)
    return before


def find_cycle(steps: Mapping[str, WorkStep], constraints: Sequence[Constraint]) -> tuple[Constraint, ...]:
    """A shortest-looking cycle of constraints, or none."""
    edges: dict[str, list[Constraint]] = {s: [] for s in steps}
    for c in constraints:
        edges[c.before].append(c)
    done: set[str] = set()
    for start in steps:
        trail: list[Constraint] = []
        on_trail = {start: 0}
        stack = [iter(edges[start])]
        if start in done:
            continue
        while stack:
            edge = next(stack[-1], None)
            if edge is None:
                stack.pop()
                last = trail.pop() if trail else None
                node = last.after if last is not None else start
                on_trail.pop(node, None)
                done.add(node)
            elif edge.after in on_trail:
                return (*trail[on_trail[edge.after] :], edge)
            elif edge.after not in done:
                trail.append(edge)
                on_trail[edge.after] = len(trail)
                stack.append(iter(edges[edge.after]))
    return ()


def _rank(step: WorkStep, index: Mapping[str, int]) -> tuple[int, int]:
    return (step.phase, index[step.id])


def plain_order(steps: Mapping[str, WorkStep], constraints: Sequence[Constraint]) -> list[WorkStep]:
    """A topological order by the steps' own sequence, without regard to cost (Kahn, 1962)."""
    before, index = _after(steps, constraints), {s: i for i, s in enumerate(steps)}
    out: list[WorkStep] = []
    placed: set[str] = set()
    while len(out) < len(steps):
        ready = [s for s in steps if s not in placed and before[s] <= placed]
        chosen = min(ready, key=lambda s: index[s])
        placed.add(chosen)
        out.append(steps[chosen])
    return out


def _greedy(steps: Mapping[str, WorkStep], constraints: Sequence[Constraint]) -> list[WorkStep]:
    before, index = _after(steps, constraints), {s: i for i, s in enumerate(steps)}
    waiting = {s: len(b) for s, b in before.items()}
    follows: dict[str, list[str]] = {s: [] for s in steps}
    for s, b in before.items():
        for other in b:
            follows[other].append(s)
    ready = {s for s, n in waiting.items() if n == 0}
    out: list[WorkStep] = []
    while ready:
        lowest = min(steps[s].phase for s in ready)
        near = [s for s in ready if steps[s].phase == lowest]
        chosen = min(near, key=lambda s: (step_cost(out[-1], steps[s]) if out else 0, *_rank(steps[s], index)))
        ready.remove(chosen)
        out.append(steps[chosen])
        for s in follows[chosen]:
            waiting[s] -= 1
            if waiting[s] == 0:
                ready.add(s)
    return out


def _improved(
    order: list[WorkStep], constraints: Sequence[Constraint], steps: Mapping[str, WorkStep]
) -> list[WorkStep]:
    """Moves single steps to where they cost least, as far as their constraints let them."""
    before = _after(steps, constraints)
    after: dict[str, set[str]] = {s: set() for s in steps}
    for s, b in before.items():
        for other in b:
            after[other].add(s)
    for _ in range(_IMPROVING_ROUNDS):
        moved = False
        for step in list(order):
            i = order.index(step)
            rest = order[:i] + order[i + 1 :]
            place = {s.id: k for k, s in enumerate(rest)}
            low = max((place[b] + 1 for b in before[step.id]), default=0)
            high = min((place[a] for a in after[step.id]), default=len(rest))

            def gain(k: int, rest: list[WorkStep] = rest, step: WorkStep = step) -> int:
                near = rest[max(0, k - 1) : k + 1]
                left = rest[k - 1 : k]
                right = rest[k : k + 1]
                return order_cost([*left, step, *right]) - (order_cost(near) if left and right else 0)

            now = gain(i)
            best = min(range(low, high + 1), key=lambda k: (gain(k), abs(k - i)))
            if gain(best) < now:
                order, moved = [*rest[:best], step, *rest[best:]], True
        if not moved:
            break
    return order


def _exact(steps: Mapping[str, WorkStep], constraints: Sequence[Constraint]) -> list[WorkStep]:
    """The cheapest order of all, by dynamic programming over sets of placed steps (Held and Karp, 1962)."""
    names = list(steps)
    need = [0] * len(names)
    at = {s: i for i, s in enumerate(names)}
    for c in constraints:
        need[at[c.after]] |= 1 << at[c.before]
    best: dict[tuple[int, int], tuple[int, int]] = {(1 << i, i): (0, -1) for i in range(len(names)) if need[i] == 0}
    level = dict(best)
    for _ in range(len(names) - 1):
        following: dict[tuple[int, int], tuple[int, int]] = {}
        for (placed, last), (cost, _) in sorted(level.items()):
            for i in range(len(names)):
                if placed >> i & 1 or need[i] & ~placed:
                    continue
                new = cost + step_cost(steps[names[last]], steps[names[i]])
                key = (placed | 1 << i, i)
                if key not in following or new < following[key][0]:
                    following[key] = (new, last)
        best.update(following)
        level = following
    key = min(level, key=lambda k: (level[k][0], k[1]))
    order: list[int] = []
    while key[1] >= 0:
        order.append(key[1])
        key = (key[0] & ~(1 << key[1]), best[key][1])
    return [steps[names[i]] for i in reversed(order)]


def sequence(steps: Mapping[str, WorkStep], constraints: Sequence[Constraint]) -> list[WorkStep] | Cycle:
    """An order that keeps every constraint: exact up to EXACT steps, else greedy and improved."""
    cycle = find_cycle(steps, constraints)
    if cycle:
        return Cycle(cycle)
    if len(steps) <= EXACT:
        return _exact(steps, constraints) if steps else []
    return _improved(_greedy(steps, constraints), constraints, steps)


def work_order(build: Build, joints: tuple[Joint, ...], letters: tuple[str, ...]) -> Plan | Cycle:
    """The plan of a build, or the cycle that stands in its way."""
    gathered, unknown = gather(build, joints, letters)
    constrain(build, gathered, joints)
    constraints = tuple(dict.fromkeys(gathered.constraints))
    found = sequence(gathered.steps, constraints)
    if isinstance(found, Cycle):
        return Cycle(found.constraints, unknown)
    plain = order_cost(plain_order(gathered.steps, constraints))
    return Plan(tuple(found), constraints, order_cost(found), plain, unknown)
