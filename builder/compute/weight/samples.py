"""Single pieces of one part that were weighed: how many, their mean and how they scatter."""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean, stdev


@dataclass(frozen=True, slots=True)
class Samples:
    """`scatter` is the standard deviation between pieces (n less 1 below the sum), None for a
    single piece.
    """

    count: int
    mean: float
    scatter: float | None


def samples(values: Sequence[float]) -> Samples | None:
    """The samples in one line; None for none.

    >>> found = samples([10.0, 10.2, 10.1])
    >>> found.count, round(found.mean, 3), round(found.scatter, 3)
    (3, 10.1, 0.1)
    """
    if not values:
        return None
    return Samples(len(values), fmean(values), stdev(values) if len(values) > 1 else None)
