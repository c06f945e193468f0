"""What a selection weighs and costs at least, and flies at most, before it is worked out: weights and
prices add.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import fsum, inf

from builder.compute.choose.offers import Offer
from builder.compute.choose.selected_build import PartsAtHand
from builder.compute.choose.three_figures import price_with_battery
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown
from builder.compute.money.budget import Budget
from builder.compute.money.price_figures import price_figure
from builder.compute.weight.mass import MassTable
from builder.compute.weight.swap_mass import pack_change, part_change
from builder.load.assumed import assumed
from builder.model.build import Build

_SLACK = assumed("choosing/weights-add")
_POWER = assumed("choosing/time-by-weight")
_COIN = assumed("choosing/coins-add")


@dataclass(frozen=True, eq=False)
class Bounds:
    """Weight (kg) and price of the build on its first battery, and what each offer changes of both;
    minus infinity where that is not known, so that nothing is passed by for it.
    """

    mass: float
    price: float
    changes: Mapping[Offer, tuple[float, float]]


def _value(figure: MaybeFigure) -> float:
    return -inf if isinstance(figure, Unknown) or figure.lacks else figure.value


def _new_price(build: Build, offer: Offer, shelf: PartsAtHand) -> float:
    entry = shelf[offer.shelf]
    count = build.packs[offer.key].pieces if offer.battery else build.parts[offer.key].count
    key, at = f"{build.name}/choose/{offer.key}-{offer.shelf}", entry.where.at("price")
    return _value(price_figure(build, key, entry.part.name, entry.part.price, count, at))


def bounds_of(
    build: Build, weights: MassTable, money: Budget, shelf: PartsAtHand, offers: Iterable[Offer]
) -> Bounds:
    """The bounds of a build with these offers; its shelf has to hold them."""
    first = next(iter(build.packs))
    price, _ = price_with_battery(build, money, first)
    lines = {x.key: x.used_figure for x in (*money.lines, *money.packs)}
    all_up = weights.all_up
    changes: dict[Offer, tuple[float, float]] = {}
    for offer in offers:
        key, name = offer.key, f"{build.name}/choose/{offer.key}-{offer.shelf}"
        replaced = f"pack-{first}" if offer.battery else key
        if offer.battery and build.packs[key].shelf == offer.shelf:
            mass: MaybeFigure = all_up[key]
            cost = _value(lines[f"pack-{key}"])
            there = _value(mass) - all_up[first].value
        elif offer.battery:
            moved = _value(pack_change(build, weights, name, key, offer.shelf))
            there = moved + all_up[key].value - all_up[first].value
            cost = _new_price(build, offer, shelf)
        else:
            there = _value(part_change(build, weights, name, key, offer.shelf))
            cost = _new_price(build, offer, shelf)
        old = lines[replaced]
        changes[offer] = there, cost - (old.value if isinstance(old, Figure) else 0.0)
    return Bounds(all_up[first].value, price.value, changes)


def weight_and_price(bounds: Bounds, elements: Iterable[Offer]) -> tuple[float, float]:
    """The sums, as they are expected."""
    found = [bounds.changes[o] for o in elements]
    mass = bounds.mass + fsum(m for m, _ in found)
    return mass, bounds.price + fsum(p for _, p in found)


def lower_bound(
    bounds: Bounds, elements: Iterable[Offer], flown: tuple[float, float] | None
) -> tuple[float, float, float]:
    """Weight, price and time turned round, none of which can be less.

    `flown` are weight and time of what of it changes more than the weight; None where that was not
    worked out.
    """
    mass, price = weight_and_price(bounds, elements)
    least = mass - _SLACK
    time = inf
    if flown is not None and least > 0:
        lighter = max(1.0, flown[0] / least)
        time = flown[1] * lighter**_POWER
    return least, price - _COIN, -time
