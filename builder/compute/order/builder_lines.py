"""Fits the builder's own steps and lines into an order and moves only what they make it move."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from builder.compute.order.search.order_search import order_cost
from builder.compute.order.steps.work_step import Constraint, WorkStep

Order = list[WorkStep]


def _closure(start: str, among: Sequence[str], edges: Mapping[str, set[str]]) -> set[str]:
    """A step and all that hang on it through these edges, within a stretch of the order."""
    inside, found, row = set(among), {start}, [start]
    while row:
        for other in edges.get(row.pop(), ()):
            if other in inside and other not in found:
                found.add(other)
                row.append(other)
    return found


def _moved(
    order: Order,
    c: Constraint,
    early: int,
    late: int,
    before: Mapping[str, set[str]],
    after: Mapping[str, set[str]],
) -> Order:
    """The order with one more constraint kept: the earlier step goes up or the later one down with
    what hangs on it.

    `early` is where the step that has to come after stands now, `late` where the one before stands.
    The way that moves fewer steps is taken; of two that move as many, the one that costs less.
    """
    stretch = order[early : late + 1]
    inside = [s.id for s in stretch]
    up, down = _closure(c.before, inside, before), _closure(c.after, inside, after)
    ways = []
    for moving, first in ((up, True), (down, False)):
        taken = [s for s in stretch if s.id in moving]
        rest = [s for s in stretch if s.id not in moving]
        moved = (*taken, *rest) if first else (*rest, *taken)
        made = [*order[:early], *moved, *order[late + 1 :]]
        ways.append((len(taken), order_cost(made), made))
    return min(ways, key=lambda w: w[:2])[2]


def _edges(constraints: Iterable[Constraint]) -> tuple[dict[str, set[str]], dict[str, set[str]]]:
    before: dict[str, set[str]] = {}
    after: dict[str, set[str]] = {}
    for c in constraints:
        before.setdefault(c.after, set()).add(c.before)
        after.setdefault(c.before, set()).add(c.after)
    return before, after


def _wanted(order: Order, step: WorkStep, low: int, high: int, own: Sequence[Constraint]) -> int:
    """Where a new step best stands between two places: beside what its own lines name, else by its
    phase.
    """
    if step.do in ("tin", "solder") and step.board:
        alike = (step.board, step.side, step.do)
        same = [i for i, s in enumerate(order) if (s.board, s.side, s.do) == alike]
        if same:
            return max(low, min(high, same[0]))
    if any(c.before == step.id for c in own) and not any(c.after == step.id for c in own):
        return high
    usual = 1 + max((i for i, s in enumerate(order) if s.phase <= step.phase), default=-1)
    return max(low, min(high, usual))


def _insert(
    order: Order, step: WorkStep, before: set[str], after: set[str], own: Sequence[Constraint]
) -> Order:
    names = [s.id for s in order]
    low = max((i + 1 for i, n in enumerate(names) if n in before), default=0)
    high = min((i for i, n in enumerate(names) if n in after), default=len(names))
    at = _wanted(order, step, low, high, own) if low <= high else low
    while (
        0 < at < high
        and order[at - 1].do == order[at].do == "solder"
        and order[at - 1].board == order[at].board
    ):
        at += 1  # a row of joints on one board is not broken up
    stage = order[at - 1].phase if at else step.phase  # it belongs to the stage in which it stands
    return [*order[:at], replace(step, phase=stage), *order[at:]]


def place_own(
    base: Order, steps: Mapping[str, WorkStep], constraints: Sequence[Constraint]
) -> Order:
    """The base order with the steps that it lacks, every constraint kept.

    The constraints must not contradict each other. Steps that no new line concerns keep their order
    among themselves.
    """
    before, after = _edges(constraints)
    near: dict[str, list[Constraint]] = {}
    for c in constraints:
        if c.after != "close":
            near.setdefault(c.before, []).append(c)
            near.setdefault(c.after, []).append(c)
    order = list(base)
    known = {s.id for s in base}
    for step in steps.values():
        if step.id not in known:
            own = near.get(step.id, [])
            order = _insert(order, step, before.get(step.id, set()), after.get(step.id, set()), own)
    place = now = {s.id: i for i, s in enumerate(order)}
    for c in sorted(constraints, key=lambda c: (place[c.after], place[c.before])):
        if now[c.before] > now[c.after]:
            order = _moved(order, c, now[c.after], now[c.before], before, after)
            now = {s.id: i for i, s in enumerate(order)}
    return order
