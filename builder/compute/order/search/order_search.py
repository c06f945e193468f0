"""The cheapest order that keeps its constraints: an exact search over sets of done steps, and a
beam beyond its bound.

Counted is, first of all, each return to a stage of the work that was left; then each change of tip
(3), of the iron's temperature (1), of the board in hand (2), and of the side of it (1). A step that
has none of these leaves it as it was. A state is the set of steps that are done and what is in
hand. A step that changes nothing is taken as soon as it is ready: taking it earlier makes nothing
dearer, since leaving a step out of a row never adds a change. The exact search is best-first (Hart,
Nilsson and Raphael, 1968) with what the remaining stages cost at least; it gives up after EXACT
states. The beam keeps WIDTH states a round. Ties are broken by the fewest steps done before one
that usually comes earlier, then by the usual order. The search itself is in cheapest_order.py and
knows steps by their marks alone, so that it is done once for all builds whose steps are alike.
"""

import heapq
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from builder.compute.order.search.cheapest_order import cheapest_of
from builder.compute.order.search.order_states import BOARD, EMPTY, IRON, SIDE, TIP, Mark
from builder.compute.order.steps.work_step import Constraint, WorkStep

EXACT = 20_000  # states


def _marks(steps: Sequence[WorkStep]) -> tuple[Mark, ...]:
    """Steps as the search sees them: words become numbers in the order in which they first come, 0
    is none.
    """
    numbers: dict[tuple[str, str | int], int] = {}

    def known(field: str, value: str | int) -> int:
        return numbers.setdefault((field, value), len(numbers) + 1) if value else 0

    out = []
    for s in steps:
        tip, iron = known("tip", s.tip), known("iron", s.iron)
        board, side = known("board", s.board), known("side", s.side)
        out.append(Mark(tip, iron, board, side, s.stage))
    return tuple(out)


def order_cost(order: Sequence[WorkStep]) -> int:
    """What all changes of an order cost."""
    hand, total = EMPTY, 0
    for mark in _marks(order):
        hand, cost = hand.take(mark)
        total += cost
    return total


@dataclass(frozen=True, slots=True)
class Tally:
    """How often each kind of change happens in an order, and what it costs apart from returns to a
    stage.
    """

    returns: int
    tips: int
    irons: int
    boards: int
    sides: int

    @property
    def cost(self) -> int:
        """The weighted sum of the changes."""
        return TIP * self.tips + IRON * self.irons + BOARD * self.boards + SIDE * self.sides


def tally(order: Sequence[WorkStep]) -> Tally:
    """The changes of an order, counted."""
    found = [0, 0, 0, 0, 0]
    hand = EMPTY
    for mark in _marks(order):
        new, _ = hand.take(mark)
        other = bool(hand.board) and new.board != hand.board
        back = new.stage < hand.stage
        tip = bool(hand.tip) and new.tip != hand.tip
        iron = bool(hand.iron) and new.iron != hand.iron
        turned = bool(hand.board) and not other and new.side != hand.side
        changed = (back, tip, iron, other, turned)
        found = [n + c for n, c in zip(found, changed, strict=True)]
        hand = new
    return Tally(*found)


def plain_order(steps: Mapping[str, WorkStep], constraints: Sequence[Constraint]) -> list[WorkStep]:
    """A topological order that looks at no cost: always the first step that is ready (Kahn, 1962)."""
    place = {s: i for i, s in enumerate(steps)}
    waits = dict.fromkeys(steps, 0)
    follows: dict[str, list[str]] = {s: [] for s in steps}
    for c in constraints:
        waits[c.after] += 1
        follows[c.before].append(c.after)
    names = list(steps)
    ready = [i for i, s in enumerate(names) if waits[s] == 0]
    out: list[WorkStep] = []
    while ready:
        chosen = names[heapq.heappop(ready)]
        out.append(steps[chosen])
        for after in follows[chosen]:
            waits[after] -= 1
            if waits[after] == 0:
                heapq.heappush(ready, place[after])
    return out


def cheapest(
    steps: Mapping[str, WorkStep], constraints: Sequence[Constraint], bound: int = EXACT
) -> tuple[list[WorkStep], bool]:
    """An order of steps that keeps the constraints, which must not contradict each other; and
    whether it is the cheapest.

    The steps stand in their usual order. Beyond the bound it costs no more than a plain topological
    order.
    """
    usual = tuple(steps.values())
    at = {s.id: i for i, s in enumerate(usual)}
    needs = [0] * len(usual)
    for c in constraints:
        needs[at[c.after]] |= 1 << at[c.before]
    found, exact = cheapest_of(_marks(usual), tuple(needs), bound)
    order = [usual[i] for i in found]
    return (
        (order, True)
        if exact
        else (min(order, plain_order(steps, constraints), key=order_cost), False)
    )
