"""Constraints that contradict each other: a cycle of them, and what of our own has to be dropped to
break each.
"""

from collections.abc import Iterable, Sequence

from builder.compute.order.shortest_cycle import shortest_cycle
from builder.compute.order.steps import Constraint, Why


def tangled(names: Iterable[str], constraints: Sequence[Constraint]) -> set[str]:
    """Steps that no order can place: what is left when all others are taken away from the front
    (Kahn, 1962).
    """
    waits = dict.fromkeys(names, 0)
    follows: dict[str, list[str]] = {n: [] for n in waits}
    for c in constraints:
        waits[c.after] += 1
        follows[c.before].append(c.after)
    ready = [n for n, w in waits.items() if w == 0]
    while ready:
        for after in follows[ready.pop()]:
            waits[after] -= 1
            if waits[after] == 0:
                ready.append(after)
    return {n for n, w in waits.items() if w > 0}


def find_cycle(names: Iterable[str], constraints: Sequence[Constraint]) -> tuple[Constraint, ...]:
    """A shortest cycle of constraints, the first of them in the order given; () where there is
    none.
    """
    left = tangled(names, constraints)
    if not left:
        return ()
    return shortest_cycle([c for c in constraints if c.before in left and c.after in left])


def loosened(
    names: Iterable[str], constraints: Sequence[Constraint]
) -> tuple[tuple[Constraint, ...], tuple[Constraint, ...]]:
    """The constraints without those of our own that contradict each other, and the ones that were
    dropped.

    Of each cycle the softest goes: what saves work before what is needed, that before what keeps
    from harm; of two that are alike the one that was added last. Lines of the builder's own are
    never touched, nor asked.
    """
    found, steps = list(constraints), tuple(names)
    dropped: list[Constraint] = []
    while True:
        ours = [c for c in found if c.why != Why.BUILDER]
        cycle = find_cycle(steps, ours)
        if not cycle:
            return tuple(found), tuple(dropped)
        place = {c: i for i, c in enumerate(found)}
        softest = min(cycle, key=lambda c: (c.why, -place[c]))
        found.remove(softest)
        dropped.append(softest)
