"""The cheapest order that keeps its constraints: an exact search over sets of done steps, and a beam beyond its bound.

Counted is, first of all, each return to a stage of the work that was left; then each change of tip (3), of the iron's
temperature (1), of the board in hand (2), and of the side of it (1). A step that has none of these leaves it as it
was. A state is the set of steps that are done and what is in hand. A step that changes nothing is taken as soon as it
is ready: taking it earlier makes nothing dearer, since leaving a step out of a row never adds a change. The exact
search is best-first (Hart, Nilsson and Raphael, 1968) with what the remaining stages cost at least; it gives up after
EXACT states. The beam keeps WIDTH states a round. Ties are broken by the fewest steps done before one that usually
comes earlier, then by the usual order.
"""

import heapq
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import count

from builder.compute.steps import Constraint, WorkStep

EXACT = 20_000  # states
WIDTH = 60  # states a round of the beam
TIP, IRON, BOARD, SIDE = 3, 1, 2, 1
BACK = 10_000  # more than all changes of an order together


@dataclass(frozen=True, slots=True)
class Hand:
    """What is in hand: the tip on the iron, its temperature, the board and its side ('' and 0: nothing yet)."""

    tip: str = ""
    iron: int = 0
    board: str = ""
    side: str = ""
    stage: int = -1

    def take(self, step: WorkStep) -> tuple["Hand", int]:
        """What is in hand after a step, and what the changes cost. The first of each kind is free."""
        cost = TIP if step.tip and self.tip and step.tip != self.tip else 0
        cost += IRON if step.iron and self.iron and step.iron != self.iron else 0
        board, side = (step.board, step.side) if step.board else (self.board, self.side)
        if step.board and self.board:
            cost += BOARD if step.board != self.board else SIDE if step.side != self.side else 0
        cost += BACK if step.stage < self.stage else 0
        return Hand(step.tip or self.tip, step.iron or self.iron, board, side, step.stage), cost


def order_cost(order: Sequence[WorkStep]) -> int:
    """What all changes of an order cost."""
    hand, total = Hand(), 0
    for step in order:
        hand, cost = hand.take(step)
        total += cost
    return total


@dataclass(frozen=True, slots=True)
class Tally:
    """How often each kind of change happens in an order, and what it costs apart from returns to a stage."""

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
    hand = Hand()
    for step in order:
        new, _ = hand.take(step)
        other = bool(hand.board) and new.board != hand.board
        changed = (
            new.stage < hand.stage,
            bool(hand.tip) and new.tip != hand.tip,
            bool(hand.iron) and new.iron != hand.iron,
            other,
            bool(hand.board) and not other and new.side != hand.side,
        )
        found = [n + c for n, c in zip(found, changed, strict=True)]
        hand = new
    return Tally(*found)


@dataclass(frozen=True, slots=True)
class _State:
    done: int
    hand: Hand
    cost: int
    early: int
    last: "_State | None"
    taken: tuple[int, ...]


_Values = dict[str | int, int]


class _Search:
    """Steps as bits, in the usual order."""

    def __init__(self, steps: Sequence[WorkStep], constraints: Sequence[Constraint]) -> None:
        self.steps = steps
        at = {s.id: i for i, s in enumerate(steps)}
        self.need = [0] * len(steps)
        for c in constraints:
            self.need[at[c.after]] |= 1 << at[c.before]
        self.all = (1 << len(steps)) - 1
        self.neutral: dict[Hand, int] = {}
        self.below = {
            stage: sum(1 << i for i, s in enumerate(steps) if s.stage < stage)
            for stage in {-1, *(s.stage for s in steps)}
        }
        self.stages = [self._stage(v) for v in sorted({s.stage for s in steps})]

    def _stage(self, stage: int) -> tuple[tuple[int, _Values], ...]:
        """For each kind of change what it costs and which steps of the stage have which value."""
        mine = [i for i, s in enumerate(self.steps) if s.stage == stage]
        kinds = []
        for name, cost in (("tip", TIP), ("iron", IRON), ("board", BOARD)):
            bits: _Values = {}
            for i in mine:
                value = getattr(self.steps[i], name)
                if value:
                    bits[value] = bits.get(value, 0) | 1 << i
            kinds.append((cost, bits))
        return tuple(kinds)

    def least(self, state: _State) -> int:
        """What the rest costs at least: a return, or else in each stage every tip, temperature and board once.

        What is in hand at the end of a stage may be the first of the next, if the next has it.
        """
        left, hand = self.all & ~state.done, state.hand
        if left & self.below[hand.stage]:
            return BACK
        held: list[set[str | int]] = [{v} if v else set() for v in (hand.tip, hand.iron, hand.board)]
        cost = 0
        for kinds in self.stages:
            for k, (each, values) in enumerate(kinds):
                still = {v for v, bits in values.items() if bits & left}
                if still:
                    free = not held[k] or bool(still & held[k])
                    cost += each * (len(still) - free)
                    held[k] = still
        return cost

    def start(self) -> _State:
        """Nothing done, nothing in hand."""
        return _State(0, Hand(), 0, 0, None, ())

    def _early(self, done: int, i: int) -> int:
        """How many steps that usually come earlier are still to do."""
        return (~done & ((1 << i) - 1)).bit_count()

    def _neutral(self, hand: Hand) -> int:
        """Steps that leave the hand as it is."""
        if hand not in self.neutral:
            self.neutral[hand] = sum(1 << i for i, s in enumerate(self.steps) if hand.take(s)[0] == hand)
        return self.neutral[hand]

    def after(self, state: _State, i: int) -> _State:
        """The state after a step and after all that then change nothing."""
        hand, cost = state.hand.take(self.steps[i])
        done, early, taken = state.done | 1 << i, state.early + self._early(state.done, i), [i]
        neutral, again = self._neutral(hand), True
        while again:
            again = False
            left = neutral & ~done
            while left:
                low = left & -left
                left ^= low
                k = low.bit_length() - 1
                if not self.need[k] & ~done:
                    early += self._early(done, k)
                    done |= low
                    taken.append(k)
                    again = True
        return _State(done, hand, state.cost + cost, early, state, tuple(taken))

    def moves(self, state: _State) -> Iterator[_State]:
        """All states one choice further."""
        left = self.all & ~state.done
        while left:
            low = left & -left
            left ^= low
            i = low.bit_length() - 1
            if not self.need[i] & ~state.done:
                yield self.after(state, i)

    def order(self, state: _State) -> list[WorkStep]:
        """The steps that led to a state."""
        rows: list[tuple[int, ...]] = []
        at: _State | None = state
        while at is not None:
            rows.append(at.taken)
            at = at.last
        return [self.steps[i] for row in reversed(rows) for i in row]


def _exact(search: _Search, bound: int) -> _State | None:
    """The cheapest order; None if the bound is reached first."""
    number = count()
    start = search.start()
    heap = [(0, 0, next(number), start)]
    best: dict[tuple[int, Hand], tuple[int, int]] = {}
    while heap:
        *_, state = heapq.heappop(heap)
        if state.done == search.all:
            return state
        if best.get((state.done, state.hand), (state.cost, state.early)) < (state.cost, state.early):
            continue
        if len(best) > bound:
            return None
        for new in search.moves(state):
            key, value = (new.done, new.hand), (new.cost, new.early)
            if key not in best or value < best[key]:
                best[key] = value
                heapq.heappush(heap, (new.cost + search.least(new), new.early, next(number), new))
    return start


def _beam(search: _Search, width: int) -> _State:
    """A good order: the best few states are followed, round by round."""
    rows, whole = [search.start()], None
    while rows:
        found: dict[tuple[int, Hand], _State] = {}
        for state in rows:
            for new in search.moves(state):
                key = (new.done, new.hand)
                if key not in found or (new.cost, new.early) < (found[key].cost, found[key].early):
                    found[key] = new
        ends = [s for s in found.values() if s.done == search.all]
        for state in ends:
            if whole is None or (state.cost, state.early) < (whole.cost, whole.early):
                whole = state
        going = [s for s in found.values() if s.done != search.all]
        rows = sorted(going, key=lambda s: (s.cost + search.least(s), s.early, -s.done.bit_count()))[:width]
    return whole if whole is not None else search.start()


def plain_order(steps: Mapping[str, WorkStep], constraints: Sequence[Constraint]) -> list[WorkStep]:
    """A topological order that looks at no cost: always the first step that is ready (Kahn, 1962)."""
    before: dict[str, set[str]] = {s: set() for s in steps}
    for c in constraints:
        before[c.after].add(c.before)
    out: list[WorkStep] = []
    placed: set[str] = set()
    while len(out) < len(steps):
        chosen = next(s for s in steps if s not in placed and before[s] <= placed)
        placed.add(chosen)
        out.append(steps[chosen])
    return out


def cheapest(
    steps: Mapping[str, WorkStep], constraints: Sequence[Constraint], bound: int = EXACT
) -> tuple[list[WorkStep], bool]:
    """An order of steps that keeps the constraints, which must not contradict each other; and whether it is the cheapest.

    The steps stand in their usual order. Beyond the bound it costs no more than a plain topological order.
    """
    search = _Search(tuple(steps.values()), constraints)
    if not steps:
        return [], True
    found = _exact(search, bound)
    if found is not None:
        return search.order(found), True
    return min(search.order(_beam(search, WIDTH)), plain_order(steps, constraints), key=order_cost), False
