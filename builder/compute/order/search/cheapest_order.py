"""The cheapest order of steps, exactly where that is quick, else a good one by a beam."""

import heapq
from functools import lru_cache
from itertools import count

from builder.compute.order.search.order_states import Mark, OrderState, OrderStates

WIDTH = 60  # states a round of the beam, of a plan of up to LARGE steps; fewer of a larger one
LARGE = 200  # steps; a plan with more is looked at for about as long as one with so many
FEW = 8  # moves that are looked at from a state of such a plan
REMEMBERED = 256  # plans; builds that differ in parts but not in steps share one


def _exact(search: OrderStates, bound: int, *, returning: bool) -> OrderState | None:
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


def _beam(search: OrderStates) -> OrderState:
    """A good order: the best few states are followed, round by round."""
    rows, whole = [search.start], None
    most = FEW if len(search.marks) > LARGE else 0
    width = max(
        2, WIDTH * LARGE**3 // max(LARGE, len(search.marks)) ** 3
    )  # rounds, moves a round, steps a move
    while rows:
        found: dict[tuple[int, int], OrderState] = {}
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
    search = OrderStates(marks, needs)
    if not marks:
        return (), True
    looks = (
        bound * LARGE**2 // max(LARGE, len(marks)) ** 2
    )  # each state of a large plan takes as much longer
    found = _exact(search, looks, returning=search.must_return)
    return (
        (search.order(found), True) if found is not None else (search.order(_beam(search)), False)
    )
