"""Every selection of at most three swaps, looked at or ruled out by a bound: exact.

Selections are taken by the number of their swaps, then the lightest first. One is passed by
unjudged where one with no more swaps, judged and right, is as light, as cheap and as long in the
air as this one can be: weights and prices add, and what only weighs cannot lengthen a flight but by
its weight. One is refused unjudged where a smaller one was refused by a rule that the other swaps
cannot change, or is not known for a reason that they leave as it is.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from builder.compute.choose.bounds import Bounds, bounds_of, lower_bound, weight_and_price
from builder.compute.choose.offers import Offer, Selection
from builder.compute.choose.on_demand import OnDemand
from builder.compute.choose.selected_build import PartsAtHand, selected_build
from builder.compute.choose.selections import Elements, elements_of, every_selection, smaller_ones
from builder.compute.choose.three_figures import ThreeFigures, three_figures
from builder.compute.figures.figure import Figure, Unknown
from builder.compute.flight.style import FlyingStyle
from builder.compute.results import Results
from builder.load.assumed import assumed
from builder.model.build import Build
from builder.model.source.part import Part
from builder.rules.choose.asked import (
    Hearing,
    Refusal,
    facts_not_known,
    facts_that_stay_open,
    first_fault,
    judged_whole,
    new_remarks,
    newly_unfed,
    rules_asked,
)
from builder.rules.choose.dependence import cannot_change, cheap_first, only_weighs, readers_of
from builder.rules.judge import Verdict
from builder.rules.rule import Case

_MOST_JUDGED = assumed("choosing/judged-at-most")


@dataclass(frozen=True, eq=False)
class ChosenSwaps:
    """A selection that was judged: its build, its figures, what is not known of it (nothing where no
    rule lacks a fact), and the remarks of the rules that the build as it is has not.
    """

    selection: Selection
    build: Build
    figures: ThreeFigures
    lacking: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()

    @property
    def is_sure(self) -> bool:
        """Whether no rule finds a fault or lacks a fact, and all three figures are known."""
        return not self.lacking


@dataclass(frozen=True, eq=False)
class Choices:
    """What a search came to: `right` are selections that nothing with as few swaps beats, `unsure`
    those of which a fact lacks. `judged` of `of` selections were looked at by rules; `whole` says
    that the search was not cut short, `style` what the times in the air rest on.
    """

    build: Build
    now: tuple[ChosenSwaps, ...]
    right: tuple[ChosenSwaps, ...]
    unsure: tuple[ChosenSwaps, ...]
    refused: Mapping[Offer, Refusal]
    judged: int
    of: int
    whole: bool = True
    style: FlyingStyle | None = None


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
    inert: dict[Offer, bool] = field(default_factory=dict)
    right: list[ChosenSwaps] = field(default_factory=list)
    points: list[tuple[float, float, float]] = field(default_factory=list)
    unsure: list[ChosenSwaps] = field(default_factory=list)
    unsure_of: dict[Elements, bool] = field(default_factory=dict)
    refused: dict[Elements, Refusal] = field(default_factory=dict)
    flown: dict[Elements, tuple[float, float]] = field(default_factory=dict)
    judged: int = 0

    def _old_and_new(self, offer: Offer) -> tuple[Part, Part]:
        fitted = self.base.packs if offer.battery else self.base.parts
        return fitted[offer.key].part, self.shelf[offer.shelf].part

    def reading(self, offer: Offer) -> frozenset[str]:
        """Who reads a field of the part that goes, or of the one that comes."""
        if offer not in self.read:
            old, new = self._old_and_new(offer)
            self.read[offer] = readers_of(old) | readers_of(new)
        return self.read[offer]

    def is_inert(self, offer: Offer) -> bool:
        """Whether a swap changes times in the air by its weight alone."""
        if offer not in self.inert:
            self.inert[offer] = only_weighs(*self._old_and_new(offer))
        return self.inert[offer]

    def ruled_out(self, elements: Elements) -> Refusal | None:
        """What refuses a selection because it refused a part of it, and the rest cannot change that."""
        for few, refusal in self.refused_among(elements):
            rest = elements - few
            if not refusal.code or all(cannot_change(refusal.code, self.reading(o)) for o in rest):
                return refusal
        return None

    def refused_among(self, elements: Elements) -> list[tuple[Elements, Refusal]]:
        """What was refused of a selection's parts, and by which rule: such rules are asked first."""
        return [(few, self.refused[few]) for few in smaller_ones(elements) if few in self.refused]

    def stays_unsure(self, elements: Elements) -> bool:
        """Whether a smaller selection is not known for a reason that the rest cannot take away: one
        that only weighs makes no time known.
        """
        for few in smaller_ones(elements):
            if few not in self.unsure_of:
                continue
            if self.unsure_of[few] or all(self.is_inert(o) for o in elements - few):
                return True
        return False

    def best_possible(self, elements: Elements) -> tuple[float, float, float]:
        """No selection of these elements is lighter, cheaper or longer in the air than this."""
        active = frozenset(o for o in elements if not self.is_inert(o))
        flown = self.flown.get(elements) or self.flown.get(active)
        return lower_bound(self.bounds, elements, flown)

    def beaten(self, point: tuple[float, float, float]) -> bool:
        """Whether one that was judged and is right is no worse in all three."""
        return any(no_worse(p, point) for p in self.points)


def _judge(
    search: _Search, selection: Selection, elements: Elements
) -> ChosenSwaps | Refusal | None:
    """The answer of the rules; None for one that is beaten, which nobody asks the rules about."""
    build = selected_build(search.base, selection, search.shelf)
    made = OnDemand(build, search.results.flight.style, search.results.mass)
    hearing = Hearing(Case(build, made))
    search.judged += 1
    known = {refusal.code for _, refusal in search.refused_among(elements)}
    early, late = cheap_first(rules_asked())
    first, next_ = (sorted(some, key=lambda r: r.code not in known) for some in (early, late))
    refusal = first_fault(hearing, first) or newly_unfed(search.base, build, selection)
    if refusal is not None:
        return refusal
    mass, time = made.all_up[selection.pack], made.time(selection.pack)
    if isinstance(time, Figure) and not mass.lacks:
        search.flown[elements] = (mass.value, time.value)
        if search.beaten(search.best_possible(elements)):
            return None
    refusal = first_fault(hearing, next_)
    if refusal is not None:
        return refusal
    figures = three_figures(build, made)
    point = figures.of_known
    if point is not None and search.beaten(point):
        return None
    said, refusal = judged_whole(hearing)
    if refusal is not None:
        return refusal
    lacking = facts_not_known(search.before, said, search.base, selection, search.shelf, figures)
    return ChosenSwaps(selection, build, figures, lacking, new_remarks(search.before, said))


def _take(search: _Search, selection: Selection) -> None:
    elements = elements_of(search.base, selection)
    if search.ruled_out(elements) is not None or search.stays_unsure(elements):
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
        for_good = facts_that_stay_open(search.base, selection, search.shelf)
        if for_good or isinstance(found.figures.time, Unknown):
            search.unsure_of[elements] = bool(for_good)


def choose_swaps(
    base: Build,
    shelf: PartsAtHand,
    results: Results,
    before: Verdict,
    at_most: float = _MOST_JUDGED,
) -> Choices:
    """The selections of a build from a shelf that nothing beats. `before` is what the rules say of
    the build as it is. A build without a battery has none. No more than `at_most` are judged.
    """
    if not base.packs:
        return Choices(base, (), (), (), {}, 0, 0)
    stocked = replace(base, shelf={**base.shelf, **shelf})
    selections = every_selection(stocked, shelf)
    offers = {o for s in selections for o in elements_of(base, s)}
    bounds = bounds_of(stocked, results.mass, results.budget, shelf, sorted(offers))
    search = _Search(base, {**base.shelf, **shelf}, results, before, bounds)
    order = sorted(
        selections,
        key=lambda s: (len(s.swaps), weight_and_price(bounds, elements_of(base, s))[0], s.pack),
    )
    whole = True
    for selection in order:
        if search.judged >= at_most:
            whole = False
            break
        _take(search, selection)
    alone = {next(iter(e)): r for e, r in search.refused.items() if len(e) == 1}
    now = tuple(c for c in search.right if not c.selection.swaps)
    right, unsure = tuple(search.right), tuple(search.unsure)
    of, style = len(selections), results.flight.style
    return Choices(base, now, right, unsure, alone, search.judged, of, whole, style)
