"""Every selection of at most three swaps, and what each is made of."""

from collections.abc import Iterator
from itertools import combinations

from builder.compute.choose.offers import Offer, Selection, pack_offers, part_offers
from builder.compute.choose.selected_build import PartsAtHand, lost_joins, parts_of
from builder.model.build import Build

MOST_SWAPS = 3
Elements = frozenset[Offer]


def smaller_ones(elements: Elements) -> Iterator[Elements]:
    """All that is less than these elements, the smallest first."""
    return (frozenset(c) for n in range(len(elements)) for c in combinations(elements, n))


def _by_swaps(selection: Selection) -> int:
    return len(selection.swaps)


def _part_sets(offers: tuple[Offer, ...]) -> Iterator[tuple[Offer, ...]]:
    for many in range(MOST_SWAPS + 1):
        for some in combinations(offers, many):
            if len({o.key for o in some}) == many:
                yield some


def every_selection(base: Build, shelf: PartsAtHand) -> list[Selection]:
    """All selections of at most three swaps whose parts have the contacts, fewest swaps first."""
    fitting = tuple(o for o in part_offers(base, shelf) if not _loses(base, o, shelf))
    packs: list[tuple[str, Offer | None]] = [(key, None) for key in base.packs]
    packs += [(o.key, o) for o in pack_offers(base, shelf)]
    made = (Selection(some, key, o) for some in _part_sets(fitting) for key, o in packs)
    return sorted((s for s in made if len(s.swaps) <= MOST_SWAPS), key=_by_swaps)


def _loses(base: Build, offer: Offer, shelf: PartsAtHand) -> bool:
    alone = Selection((offer,), next(iter(base.packs)))
    return bool(lost_joins(base, parts_of(base, alone, shelf)))


def elements_of(base: Build, selection: Selection) -> Elements:
    """What of a selection is other than the build on its first battery."""
    first = next(iter(base.packs))
    pack = selection.other_pack
    if pack is None and selection.pack != first:
        pack = Offer(selection.pack, base.packs[selection.pack].shelf, True)
    return frozenset((*selection.parts, *((pack,) if pack else ())))
