"""Which of the choices meet a wish, the best of each number of swaps; and those that nothing beats at
all.
"""

from builder.compute.choose.wish import BuildWish
from builder.rules.choose.search import Choices, ChosenSwaps, no_worse

_Point = tuple[float, float, float]


def _known(one: ChosenSwaps) -> tuple[ChosenSwaps, _Point] | None:
    point = one.figures.of_known
    return (one, point) if point is not None and one.is_sure else None


def _points(found: Choices) -> list[tuple[ChosenSwaps, _Point]]:
    return [known for known in map(_known, found.right) if known is not None]


def best_of_each_number(found: Choices, wish: BuildWish) -> tuple[ChosenSwaps, ...]:
    """The best choice with no swap, one, two, three; one that more swaps do not better is the last."""
    best: list[tuple[ChosenSwaps, _Point]] = []
    for one, point in _points(found):
        mass, price, time = point[0], point[1], -point[2]
        if not wish.is_met(mass, price, time):
            continue
        order = wish.order(mass, price, time)
        here = len(one.selection.swaps)
        before = [x for x in best if len(x[0].selection.swaps) <= here]
        if all(order < wish.order(p[0], p[1], -p[2]) for _, p in before):
            best = [x for x in best if len(x[0].selection.swaps) != here]
            best.append((one, point))
    return tuple(one for one, _ in best)


def unbeaten(found: Choices) -> tuple[ChosenSwaps, ...]:
    """The choices that no other beats in weight, price and time, however many swaps it takes; the
    lightest first.
    """
    points = _points(found)
    kept = [
        (one, point)
        for one, point in points
        if not any(no_worse(p, point) and p != point for _, p in points)
    ]
    return tuple(one for one, _ in sorted(kept, key=lambda x: x[1]))


def unsure_and_unbeaten(found: Choices) -> tuple[ChosenSwaps, ...]:
    """Choices of which a fact lacks, without those that a right one beats whatever that fact is."""
    right = [p for _, p in _points(found)]
    out = []
    for one in found.unsure:
        point = one.figures.of_known
        if point is None or not any(no_worse(p, point) for p in right):
            out.append(one)
    return tuple(out)


def unsure_that_would_do(found: Choices, wish: BuildWish) -> tuple[ChosenSwaps, ...]:
    """Those of them that may meet the wish: each figure that is known does."""
    return tuple(one for one in unsure_and_unbeaten(found) if _may_meet(one, wish))


def _may_meet(one: ChosenSwaps, wish: BuildWish) -> bool:
    point = one.figures.of_known
    return point is None or wish.is_met(point[0], point[1], -point[2])
