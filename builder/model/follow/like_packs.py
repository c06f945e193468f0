"""Packs of the shelf that a build might fly on instead of its own: as many cells of the same
chemistry, near in size.
"""

from collections.abc import Collection, Iterable
from math import inf, log
from typing import NamedTuple

from builder.model.kinds import Pack

# for each pack of the build; a shelf of hundreds would fill its pages with packs that nobody would
# take
MOST_LIKE = 12


class PackKind(NamedTuple):
    """What of a pack decides who may fly on it: cells in series, chemistry ('' where not told),
    charge (C; 0 so).
    """

    shelf: str
    series: int
    chemistry: str
    charge: float


def pack_kind(shelf: str, pack: Pack) -> PackKind | None:
    """The kind of a pack; None where its cells are not told, for then nobody knows what it is like."""
    if pack.cells is None:
        return None
    charge = pack.capacity.value if pack.capacity is not None else 0.0
    return PackKind(shelf, pack.cells.low, pack.chemistry or "", charge)


def _apart(a: float, b: float) -> float:
    """How far apart two sizes are, as a ratio; infinitely where one is not told."""
    return abs(log(a / b)) if a > 0 and b > 0 else inf


def like_packs(own: Iterable[PackKind], all_packs: Collection[PackKind]) -> frozenset[str]:
    """Shelf names of packs that are like one of a build's own: the nearest in size of each, by name
    if equally near.
    """
    found: set[str] = set()
    for pack in own:
        like = [p for p in all_packs if p.series == pack.series and p.chemistry == pack.chemistry]
        like.sort(key=lambda p: (_apart(p.charge, pack.charge), p.shelf))
        found.update(p.shelf for p in like[:MOST_LIKE])
    return frozenset(found)
