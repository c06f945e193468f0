"""Groups of steps as single steps for the planner, and back: groups keep every constraint.

Steps may be drawn together where nothing outside has to come between them. Groups are taken one
after the other, so the graph of what was drawn together never has a cycle; a group that would make
one is cut at the step from which on it waits for something outside.
"""

import heapq
from collections.abc import Mapping, Sequence
from dataclasses import replace

from builder.compute.order.constraints.constraint_reach import follows, reached
from builder.compute.order.constraints.order_cycle import tangled
from builder.compute.order.steps.work_step import Constraint, WorkStep

Home = Mapping[str, str]  # the name of what a step was drawn into; its own where it stands alone


def _mapped(constraints: Sequence[Constraint], home: Home) -> list[Constraint]:
    """The constraints between what was drawn together; those inside one are kept by its order."""
    made = {(home[c.before], home[c.after]): c for c in reversed(constraints)}
    return [
        replace(c, before=before, after=after)
        for (before, after), c in made.items()
        if before != after
    ]


def _cut(members: Sequence[str], home: Home, constraints: Sequence[Constraint]) -> list[list[str]]:
    """A group in two: what waits for something outside that waits for the group, after the rest."""
    edges = follows(_mapped(constraints, home))
    outside = {n for m in members for n in edges.get(m, ()) if n not in members}
    late: set[str] = set()
    for step in outside:
        late |= reached(step, edges)
    return [[m for m in members if m not in late], [m for m in members if m in late]]


def drawn_together(
    names: Sequence[str], groups: Sequence[Sequence[str]], constraints: Sequence[Constraint]
) -> dict[str, str]:
    """What each step is drawn into, without a cycle: the first of its group. The constraints must
    not contradict each other.
    """
    home = {n: n for n in names}
    whole = home | {m: group[0] for group in groups for m in group}
    if not tangled(set(whole.values()), _mapped(constraints, whole)):
        return whole
    left = [list(g) for g in reversed(groups)]
    while left:
        group = left.pop()
        tried = home | dict.fromkeys(group, group[0])
        if not tangled(set(tried.values()), _mapped(constraints, tried)):
            home = tried
            continue
        first, second = _cut(group, home, constraints)
        left += [part for part in (second, first) if len(part) > 1]
    return home


def _as_one(name: str, members: Sequence[WorkStep]) -> WorkStep:
    """A group as the search sees it: its name, the board, tip and temperature that it begins with."""
    if len(members) == 1:
        return members[0]
    first = members[0]
    hot = next((s for s in members if s.tip), first)
    does = members[-1].do
    held = next((s for s in members if s.board), first)
    text, phase = first.text, min(s.phase for s in members)
    return WorkStep(name, does, text, phase, held.board, held.side, hot.tip, hot.iron)


def as_single_steps(
    steps: Mapping[str, WorkStep], constraints: Sequence[Constraint], home: Home
) -> tuple[dict[str, WorkStep], tuple[Constraint, ...]]:
    """The steps with each group as one, in their usual order, and the constraints between them."""
    members: dict[str, list[WorkStep]] = {}
    for step in steps.values():
        members.setdefault(home[step.id], []).append(step)
    kept = [c for c in constraints if c.before in steps and c.after in steps]
    return {n: _as_one(n, m) for n, m in members.items()}, tuple(_mapped(kept, home))


def _inside(
    members: Sequence[WorkStep], wanted: Mapping[str, int], constraints: Sequence[Constraint]
) -> list[WorkStep]:
    """The steps of a group in the order that is wanted, as far as the constraints let it."""
    names = {s.id: s for s in members}
    waits = dict.fromkeys(names, 0)
    after: dict[str, list[str]] = {n: [] for n in names}
    for c in constraints:
        waits[c.after] += 1
        after[c.before].append(c.after)
    ready = [(wanted[n], n) for n, w in waits.items() if w == 0]
    heapq.heapify(ready)
    out = []
    while ready:
        _, name = heapq.heappop(ready)
        out.append(names[name])
        for other in after[name]:
            waits[other] -= 1
            if waits[other] == 0:
                heapq.heappush(ready, (wanted[other], other))
    return out


def taken_apart(
    order: Sequence[WorkStep],
    steps: Mapping[str, WorkStep],
    home: Home,
    groups: Sequence[Sequence[str]],
    constraints: Sequence[Constraint],
) -> list[list[WorkStep]]:
    """The steps of each group in their order, group by group as the order has them.

    A step of the builder's own keeps the phase that it got where it was put.
    """
    wanted = {name: i for group in groups for i, name in enumerate(group)}
    within: dict[str, list[Constraint]] = {}
    for c in constraints:
        if home[c.before] == home[c.after]:
            within.setdefault(home[c.before], []).append(c)
    members: dict[str, list[WorkStep]] = {}
    for step in steps.values():
        members.setdefault(home[step.id], []).append(step)
    out = []
    for one in order:
        row = members[one.id]
        if len(row) == 1:
            out.append([one])
        else:
            out.append(_inside(row, wanted, within.get(one.id, [])))
    return out
