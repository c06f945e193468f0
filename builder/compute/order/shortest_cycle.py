"""The shortest cycle of a graph of constraints, without trying every one of them through the whole
graph.
"""

from collections import deque
from collections.abc import Sequence

from builder.compute.order.steps import Constraint


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
