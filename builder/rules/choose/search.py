"""Every selection of at most three swaps, looked at or ruled out by a bound: exact.

Selections are taken by the number of their swaps, then the lightest first. One is passed by
unjudged where one with no more swaps, judged and right, is as light, as cheap and as long in the
air as this one can be: weights and prices add, and what only weighs cannot lengthen a flight but by
its weight. One is refused unjudged where a smaller one was refused by a rule that the other swaps
cannot change.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from itertools import combinations

from builder.compute.choose.bounds import Bounds, bounds_of, lower_bound, weight_and_price
from builder.compute.choose.offers import Offer, Selection, pack_offers, part_offers
from builder.compute.choose.on_demand import OnDemand
from builder.compute.choose.selected_build import PartsAtHand, lost_joins, parts_of, selected_build
from builder.compute.choose.three_figures import ThreeFigures, three_figures
from builder.compute.results import Results
from builder.load.assumed import assumed
from builder.model.build import Build
from builder.model.source.part import Part
from builder.rules.choose.asked import (
    Hearing,
    Refusal,
    facts_not_known,
    first_fault,
    judged_whole,
    newly_unfed,
    rules_asked,
)
from builder.rules.choose.dependence import cannot_change, cheap_first, is_inert, readers_of
from builder.rules.find_rules import all_rules
from builder.rules.judge import Verdict
from builder.rules.rule import Case

MOST_SWAPS = 3
_MOST_JUDGED = assumed("choosing/judged-at-most")


@dataclass(frozen=True, eq=False)
class ChosenSwaps:
    """A selection that was judged: its build, its figures, and what is not known of it (nothing
    where every rule was satisfied).
    """

    selection: Selection
    build: Build
    figures: ThreeFigures
    lacking: tuple[str, ...] = ()

    @property
    def is_sure(self) -> bool:
        """Whether every rule was satisfied, and all three figures are known."""
        return not self.lacking


@dataclass(frozen=True, eq=False)
class Choices:
    """What a search came to: `right` are selections that nothing with as few swaps beats, `unsure`
    those of which a fact lacks. `judged` of `of` selections were looked at by rules; `whole` says
    that the search was not cut short.
    """

    build: Build
    now: tuple[ChosenSwaps, ...]
    right: tuple[ChosenSwaps, ...]
    unsure: tuple[ChosenSwaps, ...]
    refused: Mapping[Offer, Refusal]
    judged: int
    of: int
    whole: bool = True


Elements = frozenset[Offer]


def no_worse(a: tuple[float, float, float], b: tuple[float, float, float]) -> bool:
    """Whether one is as light, as cheap and as long in the air as the other, or better."""
    return a[0] <= b[0] and a[1] <= b[1] and a[2] <= b[2]


@dataclass(eq=False)
class _Search:
    """One search; local to a call."""

    base: Build
    shelf: PartsAtHand
    results: Results
    before: Verdict
    bounds: Bounds
    read: dict[Offer, frozenset[str]] = field(default_factory=dict)
    right: list[ChosenSwaps] = field(default_factory=list)
    points: list[tuple[float, float, float]] = field(default_factory=list)
    unsure: list[ChosenSwaps] = field(default_factory=list)
    unsure_of: list[Elements] = field(default_factory=list)
    refused: dict[Elements, Refusal] = field(default_factory=dict)
    flown: dict[Elements, tuple[float, float]] = field(default_factory=dict)
    judged: int = 0

    def reading(self, offer: Offer) -> frozenset[str]:
        """Who reads a field of the part that goes, or of the one that comes."""
        if offer not in self.read:
            fitted = self.base.packs if offer.battery else self.base.parts
            old: Part = fitted[offer.key].part
            self.read[offer] = readers_of(old) | readers_of(self.shelf[offer.shelf].part)
        return self.read[offer]

    def ruled_out(self, elements: Elements) -> Refusal | None:
        """What refuses a selection because it refused a part of it, and the rest cannot change that."""
        for few, refusal in self.refused.items():
            if not few <= elements:
                continue
            rest = elements - few
            if not refusal.code or all(cannot_change(refusal.code, self.reading(o)) for o in rest):
                return refusal
        return None

    def asked_before(self, elements: Elements) -> list[str]:
        """Rules that refused a part of the selection: they are asked first."""
        return [r.code for few, r in self.refused.items() if few <= elements]

    def rests_on_unsure(self, elements: Elements) -> bool:
        """Whether a smaller selection is not known, and the rest only adds weight: it tells nothing."""
        smaller = (elements - few for few in self.unsure_of if few <= elements)
        return any(all(is_inert(self.reading(o)) for o in rest) for rest in smaller)

    def best_possible(self, elements: Elements) -> tuple[float, float, float]:
        """No selection of these elements is lighter, cheaper or longer in the air than this."""
        active = frozenset(o for o in elements if not is_inert(self.reading(o)))
        return lower_bound(self.bounds, elements, self.flown.get(active))

    def beaten(self, point: tuple[float, float, float]) -> bool:
        """Whether one that was judged and is right is no worse in all three."""
        return any(no_worse(p, point) for p in self.points)


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


def _elements(base: Build, selection: Selection) -> Elements:
    """What of a selection is other than the build on its first battery."""
    first = next(iter(base.packs))
    pack = selection.other_pack
    if pack is None and selection.pack != first:
        pack = Offer(selection.pack, base.packs[selection.pack].shelf, True)
    return frozenset((*selection.parts, *((pack,) if pack else ())))


def _judge(
    search: _Search, selection: Selection, elements: Elements
) -> ChosenSwaps | Refusal | None:
    """The answer of the rules; None for one that is beaten, which nobody asks the rules about."""
    build = selected_build(search.base, selection, search.shelf)
    made = OnDemand(build, search.results.flight.style, search.results.mass)
    hearing = Hearing(Case(build, made))
    search.judged += 1
    known = set(search.asked_before(elements))
    first = [r for r in all_rules() if r.code in known]
    early, late = cheap_first(rules_asked())
    refusal = first_fault(hearing, (*first, *early)) or newly_unfed(search.base, build, selection)
    if refusal is not None:
        return refusal
    figures = three_figures(build, made)
    point = figures.of_known
    if point is not None:
        search.flown[elements] = (figures.mass.value, -point[2])
        if search.beaten(point):
            return None
    refusal = first_fault(hearing, late)
    if refusal is not None:
        return refusal
    said, refusal = judged_whole(hearing)
    if refusal is not None:
        return refusal
    lacking = facts_not_known(search.before, said, search.base, selection, search.shelf, figures)
    return ChosenSwaps(selection, build, figures, lacking)


def _take(search: _Search, selection: Selection) -> None:
    elements = _elements(search.base, selection)
    if search.ruled_out(elements) is not None:
        return
    if search.rests_on_unsure(elements):
        return
    if search.beaten(search.best_possible(elements)):
        return
    found = _judge(search, selection, elements)
    if isinstance(found, Refusal):
        search.refused[elements] = found
    elif found is not None and found.is_sure:
        search.right.append(found)
        point = found.figures.of_known
        search.points += [point] if point is not None else []
    elif found is not None:
        search.unsure.append(found)
        search.unsure_of.append(elements)


def choose_swaps(base: Build, shelf: PartsAtHand, results: Results, before: Verdict) -> Choices:
    """The selections of a build from a shelf that nothing beats. `before` is what the rules say of
    the build as it is. A build without a battery has none.
    """
    if not base.packs:
        return Choices(base, (), (), (), {}, 0, 0)
    stocked = replace(base, shelf={**base.shelf, **shelf})
    selections = every_selection(stocked, shelf)
    offers = {o for s in selections for o in _elements(base, s)}
    bounds = bounds_of(stocked, results.mass, results.budget, shelf, sorted(offers))
    search = _Search(base, {**base.shelf, **shelf}, results, before, bounds)
    order = sorted(
        selections,
        key=lambda s: (len(s.swaps), weight_and_price(bounds, _elements(base, s))[0], s.pack),
    )
    whole = True
    for selection in order:
        if search.judged >= _MOST_JUDGED:
            whole = False
            break
        _take(search, selection)
    alone = {next(iter(e)): r for e, r in search.refused.items() if len(e) == 1}
    now = tuple(c for c in search.right if not c.selection.swaps)
    right, unsure = tuple(search.right), tuple(search.unsure)
    return Choices(base, now, right, unsure, alone, search.judged, len(selections), whole)
