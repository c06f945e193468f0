"""Which steps lines of the order lead to: asked for each of a thousand steps, so no line is looked
through twice.
"""

from collections.abc import Iterable, Mapping, Sequence

from builder.compute.order.steps.work_step import Constraint


def follows(constraints: Iterable[Constraint]) -> dict[str, list[str]]:
    """By step: those that a line puts after it."""
    found: dict[str, list[str]] = {}
    for c in constraints:
        found.setdefault(c.before, []).append(c.after)
    return found


def reached(start: str, edges: Mapping[str, Sequence[str]]) -> set[str]:
    """A step and all that hang on it through these edges."""
    found, row = {start}, [start]
    while row:
        for other in edges.get(row.pop(), ()):
            if other not in found:
                found.add(other)
                row.append(other)
    return found


class ConstraintReach:
    """What leads to a few steps, kept while lines are added. Sets of steps are bits of a number.
    Local to a call.
    """

    def __init__(self, names: Iterable[str], constraints: Sequence[Constraint]) -> None:
        self._bit = {name: 1 << i for i, name in enumerate(names)}
        self._before: dict[str, list[str]] = {}
        for c in constraints:
            self._before.setdefault(c.after, []).append(c.before)
        self._to: dict[str, int] = {}

    def leads(self, start: str, end: str) -> bool:
        """Whether some row of lines leads from one step to another."""
        return bool(self._to_step(end) & self._bit[start])

    def add(self, before: str, after: str) -> None:
        """One more line: what leads to its first step leads to all that its second leads to."""
        more, there = self._to_step(before), self._bit[after]
        for end, known in self._to.items():
            if known & there:
                self._to[end] = known | more
        self._before.setdefault(after, []).append(before)

    def _to_step(self, end: str) -> int:
        """A step and all that lead to it."""
        if end not in self._to:
            self._to[end] = sum(self._bit[s] for s in reached(end, self._before))
        return self._to[end]
