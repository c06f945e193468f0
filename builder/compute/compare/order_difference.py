"""Which steps of the order of work two builds have alike, otherwise, alone, or at another time."""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass

from builder.compute.figures.told import WordsOrTold
from builder.compute.order.work_order import Cycle, Plan


@dataclass(frozen=True, slots=True)
class StepChange:
    """One step: its number (gates carry none: 0) and text in each build, None where a build has no
    such step.

    `moved` says that both have it and that it comes at another time among the steps that both have.
    """

    id: str
    first: tuple[int, WordsOrTold] | None
    second: tuple[int, WordsOrTold] | None
    moved: bool = False

    @property
    def differs(self) -> bool:
        """Whether one lacks it, does it with other words, or does it at another time."""
        if self.first is None or self.second is None:
            return True
        return self.moved or self.first[1] != self.second[1]


def _steps(order: Plan | Cycle) -> dict[str, tuple[int, WordsOrTold]]:
    if not isinstance(order, Plan):
        return {}
    return {step.id: (order.numbers[step.id], step.text) for step in order.steps}


def longest_rising(values: Sequence[int]) -> set[int]:
    """The members of one longest rising run of distinct values (patience sorting).

    >>> sorted(longest_rising([3, 1, 2, 4]))
    [1, 2, 4]
    """
    tops: list[int] = []
    before: dict[int, int | None] = {}
    for value in values:
        at = bisect_left(tops, value)
        before[value] = tops[at - 1] if at else None
        tops[at : at + 1] = [value]
    out: set[int] = set()
    at_value = tops[-1] if tops else None
    while at_value is not None:
        out.add(at_value)
        at_value = before[at_value]
    return out


def _stayed(first: Sequence[str], second: Sequence[str]) -> set[str]:
    """Common steps that keep their order. The same whichever build is named first."""
    of_first = [s for s in first if s in set(second)]
    of_second = [s for s in second if s in set(first)]
    low, high = sorted((of_first, of_second))
    place = {s: i for i, s in enumerate(low)}
    kept = longest_rising([place[s] for s in high])
    return {s for s in low if place[s] in kept}


def order_changes(first: Plan | Cycle, second: Plan | Cycle) -> tuple[StepChange, ...]:
    """Every step of both, in the order of the first build, then those that only the second has."""
    a, b = _steps(first), _steps(second)
    stayed = _stayed(tuple(a), tuple(b))
    moved = a.keys() & b.keys() - stayed
    every = dict.fromkeys((*a, *b))
    return tuple(StepChange(s, a.get(s), b.get(s), s in moved) for s in every)
