"""What cheapest_order.py searches: steps are marks and bits, what is in hand is a number, states are
small tuples.

A state is the set of steps that are done and what is in hand. Nearly all the time of a plan goes
into this file, so it works on whole numbers and remembers what each hand costs for each step.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

TIP, IRON, BOARD, SIDE = 3, 1, 2, 1
BACK = 10_000  # more than all changes of an order together


class Mark(NamedTuple):
    """What changes are counted in, of a step, or in hand after steps. 0: it is left as it is, or
    not yet taken up.
    """

    tip: int
    iron: int
    board: int
    side: int
    stage: int

    def take(self, step: "Mark") -> tuple["Mark", int]:
        """What is in hand after a step, and what the changes cost. The first of each kind is free."""
        cost = TIP if step.tip and self.tip and step.tip != self.tip else 0
        cost += IRON if step.iron and self.iron and step.iron != self.iron else 0
        board, side = (step.board, step.side) if step.board else (self.board, self.side)
        if step.board and self.board and step.board != self.board:
            cost += BOARD
        elif step.board and self.board and step.side != self.side:
            cost += SIDE
        cost += BACK if step.stage < self.stage else 0
        return Mark(step.tip or self.tip, step.iron or self.iron, board, side, step.stage), cost


EMPTY = Mark(0, 0, 0, 0, -1)  # a hand before the first step


class OrderState(NamedTuple):
    """Steps done and steps ready (as bits), the number of the hand, cost so far, steps done early,
    how it was reached.
    """

    done: int
    ready: int
    hand: int
    cost: int
    early: int
    last: "OrderState | None"
    taken: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class _Kind:
    """In one stage, what a change of one kind costs, and each value (as a bit) with the steps that
    have it.
    """

    cost: int
    steps: int
    values: tuple[tuple[int, int], ...]


class OrderStates:
    """Steps as bits, in the usual order."""

    def __init__(self, marks: Sequence[Mark], needs: Sequence[int]) -> None:
        self.marks, self.needs = marks, needs
        self.all = (1 << len(marks)) - 1
        self.follows: list[list[int]] = [[] for _ in marks]
        for i, need in enumerate(needs):
            left = need
            while left:
                low = left & -left
                left ^= low
                self.follows[low.bit_length() - 1].append(i)
        self.hands: list[Mark] = []
        self.numbers: dict[Mark, int] = {}
        self.after_step: list[
            list[tuple[int, int]]
        ] = []  # by hand, by step: the hand after it, what it costs
        self.neutral: list[int] = []  # by hand: steps that leave it as it is
        stages = sorted({m.stage for m in marks})
        places = [(1 << i, m.stage) for i, m in enumerate(marks)]
        self.below = {s: sum(bit for bit, at in places if at < s) for s in (-1, *stages)}
        self.upto = [sum(1 << i for i, m in enumerate(marks) if m.stage <= s) for s in stages]
        self.stages = [self._kinds(s) for s in stages]
        later = dict(zip(stages, self.upto, strict=True))
        self.must_return = any(need & ~later[m.stage] for m, need in zip(marks, needs, strict=True))
        ready = sum(1 << i for i, need in enumerate(needs) if not need)
        self.start = OrderState(0, ready, self._number(EMPTY), 0, 0, None, ())

    def _kinds(self, stage: int) -> tuple[_Kind, ...]:
        kinds = []
        for field, cost in ((0, TIP), (1, IRON), (2, BOARD)):
            bits: dict[int, int] = {}
            for i, mark in enumerate(self.marks):
                if mark.stage == stage and mark[field]:
                    bits[1 << mark[field]] = bits.get(1 << mark[field], 0) | 1 << i
            kinds.append(_Kind(cost, sum(bits.values()), tuple(bits.items())))
        return tuple(kinds)

    def _number(self, hand: Mark) -> int:
        """The number of a hand; a new one gets the next."""
        number = self.numbers.setdefault(hand, len(self.hands))
        if number == len(self.hands):
            self.hands.append(hand)
            self.after_step.append([])
            self.neutral.append(0)
        return number

    def _row(self, hand: int) -> list[tuple[int, int]]:
        """For each step the hand after it and what it costs; worked out when a hand is first met."""
        row = self.after_step[hand]
        if not row:
            taken = [self.hands[hand].take(m) for m in self.marks]
            row.extend((self._number(new), cost) for new, cost in taken)
            self.neutral[hand] = sum(1 << i for i, (new, _) in enumerate(row) if new == hand)
        return row

    def least(self, done: int, hand: int) -> int:
        """What the rest costs at least: a return, or else in each stage every tip, temperature and
        board once.

        What is in hand at the end of a stage may be the first of the next, if the next has it.
        """
        left, mark = self.all & ~done, self.hands[hand]
        if left & self.below[mark.stage]:
            return BACK
        held = [1 << mark.tip & ~1, 1 << mark.iron & ~1, 1 << mark.board & ~1]
        cost = 0
        for kinds in self.stages:
            for k, kind in enumerate(kinds):
                if not kind.steps & left:
                    continue
                still = 0
                for value, steps in kind.values:
                    if steps & left:
                        still |= value
                cost += kind.cost * (still.bit_count() - (not held[k] or bool(still & held[k])))
                held[k] = still
        return cost

    def _after(self, state: OrderState, i: int, hand: int, cost: int) -> OrderState:
        """The state after a step and after all that then change nothing."""
        needs, follows = self.needs, self.follows
        early, taken, k = state.early, [], i
        done, ready = state.done, state.ready
        self._row(hand)
        neutral = self.neutral[hand]
        while True:
            low = 1 << k
            early += (~done & (low - 1)).bit_count()
            done |= low
            ready ^= low
            taken.append(k)
            for other in follows[k]:
                if not needs[other] & ~done:
                    ready |= 1 << other
            free = ready & neutral
            if not free:
                return OrderState(done, ready, hand, state.cost + cost, early, state, tuple(taken))
            further = (
                free >> (k + 1) << (k + 1) if len(taken) > 1 else free
            )  # on to the end, then from the front
            low = further & -further or free & -free
            k = low.bit_length() - 1

    def moves(self, state: OrderState, *, returning: bool, most: int = 0) -> Iterator[OrderState]:
        """All states one choice further, or the cheapest few; without `returning` only the first
        stage that is not done.
        """
        left = state.ready
        row = self._row(state.hand)
        if not returning:
            undone = self.all & ~state.done
            left &= next(u for u in self.upto if u & undone)
        choices = []
        while left:
            low = left & -left
            left ^= low
            choices.append(low.bit_length() - 1)
        if most and len(choices) > most:
            choices = sorted(choices, key=lambda i: row[i][1])[:most]
        for i in choices:
            yield self._after(state, i, *row[i])

    def order(self, state: OrderState) -> tuple[int, ...]:
        """The steps that led to a state."""
        rows: list[tuple[int, ...]] = []
        at: OrderState | None = state
        while at is not None:
            rows.append(at.taken)
            at = at.last
        return tuple(i for row in reversed(rows) for i in row)
