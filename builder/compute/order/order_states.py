"""The search behind order_search.py: steps are marks and bits, what is in hand is a number, states
are small tuples.

A state is the set of steps that are done and what is in hand. Nearly all the time of a plan goes
into this file, so it works on whole numbers and remembers what each hand costs for each step.
"""

import heapq
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import count
from typing import NamedTuple

WIDTH = 60  # states a round of the beam, of a plan of up to LARGE steps; fewer of a larger one
LARGE = 200  # steps; a plan with more is looked at for about as long as one with so many
FEW = 8  # moves that are looked at from a state of such a plan
TIP, IRON, BOARD, SIDE = 3, 1, 2, 1
BACK = 10_000  # more than all changes of an order together
REMEMBERED = 256  # plans; builds that differ in parts but not in steps share one


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


class _State(NamedTuple):
    """Steps done and steps ready (as bits), the number of the hand, cost so far, steps done early,
    how it was reached.
    """

    done: int
    ready: int
    hand: int
    cost: int
    early: int
    last: "_State | None"
    taken: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class _Kind:
    """In one stage, what a change of one kind costs, and each value (as a bit) with the steps that
    have it.
    """

    cost: int
    steps: int
    values: tuple[tuple[int, int], ...]


class _Search:
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
        self.start = _State(0, ready, self._number(EMPTY), 0, 0, None, ())

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

    def _after(self, state: _State, i: int, hand: int, cost: int) -> _State:
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
                return _State(done, ready, hand, state.cost + cost, early, state, tuple(taken))
            further = (
                free >> (k + 1) << (k + 1) if len(taken) > 1 else free
            )  # on to the end, then from the front
            low = further & -further or free & -free
            k = low.bit_length() - 1

    def moves(self, state: _State, *, returning: bool, most: int = 0) -> Iterator[_State]:
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

    def order(self, state: _State) -> tuple[int, ...]:
        """The steps that led to a state."""
        rows: list[tuple[int, ...]] = []
        at: _State | None = state
        while at is not None:
            rows.append(at.taken)
            at = at.last
        return tuple(i for row in reversed(rows) for i in row)


def _exact(search: _Search, bound: int, *, returning: bool) -> _State | None:
    """The cheapest order; None if the bound is reached first."""
    number = count()
    heap = [(0, 0, next(number), search.start)]
    best: dict[tuple[int, int], tuple[int, int]] = {}
    while heap:
        *_, state = heapq.heappop(heap)
        if state.done == search.all:
            return state
        if best.get((state.done, state.hand), (state.cost, state.early)) < (
            state.cost,
            state.early,
        ):
            continue
        if len(best) > bound:
            return None
        for new in search.moves(state, returning=returning):
            key, value = (new.done, new.hand), (new.cost, new.early)
            if key not in best or value < best[key]:
                best[key] = value
                heapq.heappush(
                    heap,
                    (new.cost + search.least(new.done, new.hand), new.early, next(number), new),
                )
    return None


def _beam(search: _Search) -> _State:
    """A good order: the best few states are followed, round by round."""
    rows, whole = [search.start], None
    most = FEW if len(search.marks) > LARGE else 0
    width = max(
        2, WIDTH * LARGE**3 // max(LARGE, len(search.marks)) ** 3
    )  # rounds, moves a round, steps a move
    while rows:
        found: dict[tuple[int, int], _State] = {}
        for state in rows:
            for new in search.moves(state, returning=True, most=most):
                key = (new.done, new.hand)
                if key not in found or (new.cost, new.early) < (found[key].cost, found[key].early):
                    found[key] = new
        ends = [s for s in found.values() if s.done == search.all]
        for state in ends:
            if whole is None or (state.cost, state.early) < (whole.cost, whole.early):
                whole = state
        going = [s for s in found.values() if s.done != search.all]
        rows = sorted(
            going,
            key=lambda s: (s.cost + search.least(s.done, s.hand), s.early, -s.done.bit_count()),
        )
        rows = rows[:width]
    return whole if whole is not None else search.start


@lru_cache(maxsize=REMEMBERED)
def cheapest_of(
    marks: tuple[Mark, ...], needs: tuple[int, ...], bound: int
) -> tuple[tuple[int, ...], bool]:
    """An order of steps, by their places, that keeps what each step needs (as bits); and whether it
    is the cheapest.

    An order that returns to no stage is cheaper than any that does, so where there is one, only
    those are looked at.
    """
    search = _Search(marks, needs)
    if not marks:
        return (), True
    looks = (
        bound * LARGE**2 // max(LARGE, len(marks)) ** 2
    )  # each state of a large plan takes as much longer
    found = _exact(search, looks, returning=search.must_return)
    return (
        (search.order(found), True) if found is not None else (search.order(_beam(search)), False)
    )
