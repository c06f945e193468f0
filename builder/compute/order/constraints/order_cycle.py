"""Constraints that contradict each other: a cycle of them, and what of our own has to be dropped to
break each.
"""

from collections import deque
from collections.abc import Iterable, Sequence

from builder.compute.order.steps.work_step import Constraint, Why


class _Left:
    """Steps that may lie on a cycle still; local to a call. One that nothing leads to, or that
    leads nowhere, goes.
    """

    def __init__(self, edges: Sequence[Constraint]) -> None:
        self.follows: dict[str, list[Constraint]] = {}
        self.leads: dict[str, list[Constraint]] = {}
        for c in edges:
            self.follows.setdefault(c.before, []).append(c)
            self.leads.setdefault(c.after, []).append(c)
        self.steps = dict.fromkeys(s for c in edges for s in (c.before, c.after))
        self._outs = {s: len(self.follows.get(s, ())) for s in self.steps}
        self._ins = {s: len(self.leads.get(s, ())) for s in self.steps}
        self._take([s for s in self.steps if not self._outs[s] or not self._ins[s]])

    def _take(self, row: list[str]) -> None:
        """Takes steps away, and then those that lie on no cycle without them (Kahn, 1962, from both
        ends).
        """
        for step in row:
            self.steps.pop(step)
        while row:
            gone = row.pop()
            later = [c.after for c in self.follows.get(gone, ())]
            earlier = [c.before for c in self.leads.get(gone, ())]
            ends = ((self._ins, later), (self._outs, earlier))
            for number, others in ends:
                for other in others:
                    number[other] -= 1
                    if number[other] == 0 and other in self.steps:
                        self.steps.pop(other)
                        row.append(other)

    def take(self, step: str) -> None:
        """Takes one step away."""
        self._take([step])


def _through(start: str, left: _Left, most: int) -> tuple[Constraint, ...]:
    """A shortest cycle through a step, of fewer than `most` constraints; () where there is none."""
    came: dict[str, Constraint] = {}
    row = deque([(start, 0)])
    while row:
        here, length = row.popleft()
        if length + 1 >= most:
            break
        for c in left.follows.get(here, ()):
            if c.after == start:
                way = [c]
                while way[-1].before != start:
                    way.append(came[way[-1].before])
                return tuple(reversed(way))
            if c.after not in came and c.after in left.steps:
                came[c.after] = c
                row.append((c.after, length + 1))
    return ()


def shortest_cycle(edges: Sequence[Constraint]) -> tuple[Constraint, ...]:
    """A shortest cycle, from the first of its constraints in the order given; () where there is
    none.

    A step whose own shortest cycle is known is taken away: any other cycle through it is no
    shorter.
    """
    left = _Left(edges)
    best: tuple[Constraint, ...] = ()
    while left.steps:
        start = next(iter(left.steps))
        best = _through(start, left, len(best) or len(edges) + 2) or best
        left.take(start)
    if not best:
        return ()
    place = {c: i for i, c in reversed(list(enumerate(edges)))}
    first = min(range(len(best)), key=lambda i: place[best[i]])
    return (*best[first:], *best[:first])


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
