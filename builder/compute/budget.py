"""Money: what this build costs, what has to be paid at the till, what is bought once. Whole minor units throughout."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import ROUND_HALF_UP, Decimal

from builder.diagnostics.where import Where
from builder.model.build import Build
from builder.model.kinds import Consumable, GroundGear, Part, Tool
from builder.model.measures import Money
from builder.model.part import Price


@dataclass(frozen=True)
class BudgetLine:
    """One part's money: `used` for the pieces in the build, `till` for whole purchases with spares.

    Both in the site's currency and rounded once; None where no price is known or no rate leads to the currency.
    """

    key: str
    label: str
    count: int
    spares: int
    each: Money | None
    used: Money | None
    till: Money | None
    purchases: int
    sold_in: int
    seen: date | None
    age_days: int | None
    stale: bool
    link: str
    paid_link: bool
    why_unknown: str
    where: Where
    owned: bool = False


@dataclass(frozen=True)
class Budget:
    """The money tables: this build, packs, and what is bought once, each with its total, kept apart.

    `postage` is counted once a shop. Totals leave unknown prices out; `lacks` names them.
    """

    currency: str
    lines: tuple[BudgetLine, ...]
    packs: tuple[BudgetLine, ...]
    once: tuple[BudgetLine, ...]
    postage: tuple[tuple[str, Money], ...]
    this_build: Money
    at_the_till: Money
    packs_total: Money
    once_total: Money
    once_to_buy: Money
    lacks: tuple[str, ...]
    as_of: date | None


def convert(build: Build, money: Money) -> tuple[Money | None, str]:
    """Money in the site's currency by the newest dated rate, rounded once, half away from zero."""
    target = build.site.currency
    if money.currency == target:
        return money, ""
    rates = sorted((r for r in build.site.rates), key=lambda r: r.dated)
    for rate in reversed(rates):
        factor = None
        if (rate.from_, rate.to) == (money.currency, target):
            factor = Decimal(repr(rate.rate.value))
        elif (rate.to, rate.from_) == (money.currency, target) and rate.rate.value:
            factor = 1 / Decimal(repr(rate.rate.value))
        if factor is not None:
            shift = Money(0, target).digits - money.digits
            minor = (Decimal(money.minor) * factor).scaleb(shift).quantize(Decimal(1), rounding=ROUND_HALF_UP)
            return Money(int(minor), target), ""
    return None, f"no rate from {money.currency} to {target} in site.yaml"


def _each(price: Price | None) -> Money | None:
    if price is None:
        return None
    if price.each is not None:
        return price.each
    if price.pack is not None:
        minor = Decimal(price.pack.minor) / price.sold_in
        return Money(int(minor.quantize(Decimal(1), rounding=ROUND_HALF_UP)), price.pack.currency)
    return None


def _times(build: Build, price: Price, pieces: int) -> tuple[Money | None, str]:
    """Pieces at the price for one, in the site's currency: multiplied first, rounded once."""
    if price.each is not None:
        return convert(build, Money(price.each.minor * pieces, price.each.currency))
    if price.pack is not None:
        exact = Decimal(price.pack.minor * pieces) / price.sold_in
        minor = exact.quantize(Decimal(1), rounding=ROUND_HALF_UP)
        return convert(build, Money(int(minor), price.pack.currency))
    return None, "no price"


def _line(
    build: Build,
    key: str,
    part: Part,
    price: Price | None,
    count: int,
    spares: int,
    where: Where,
    *,
    owned: bool = False,
) -> BudgetLine:
    sold_in = max(1, price.sold_in) if price is not None else 1
    purchases = -(-(count + spares) // sold_in)
    used, why = _times(build, price, count) if price is not None else (None, "no price")
    till, _ = _times(build, price, purchases * sold_in) if price is not None else (None, "")
    as_of = build.site.as_of or build.source.revised
    seen = price.seen if price is not None else None
    age = (as_of - seen).days if as_of is not None and seen is not None else None
    limit = build.site.price_age.value / 86400 if build.site.price_age is not None else None
    stale = age is not None and limit is not None and age > limit
    return BudgetLine(
        key,
        part.name,
        count,
        spares,
        _each(price),
        used,
        till,
        purchases,
        sold_in,
        seen,
        age,
        stale,
        (price.link or "") if price else "",
        price.paid_link if price else False,
        why if used is None else "",
        where,
        owned,
    )


def sum_of(currency: str, amounts: Iterable[Money | None]) -> Money:
    """Amounts that are known, added."""
    return Money(sum(a.minor for a in amounts if a is not None), currency)


def _postage(build: Build, prices: Iterable[Price | None]) -> tuple[tuple[str, Money], ...]:
    """The dearest postage of each shop, once."""
    by_shop: dict[str, Money] = {}
    for price in prices:
        if price is not None and price.postage is not None:
            amount, _ = convert(build, price.postage)
            shop = price.shop or (price.link or "").split("/")[2:3][0] if price.link else (price.shop or "unnamed shop")
            if amount is not None and amount.minor > by_shop.get(shop, Money(-1, "")).minor:
                by_shop[shop] = amount
    return tuple(sorted(by_shop.items()))


def budget(build: Build) -> Budget:
    """The money of a build."""
    own: list[BudgetLine] = []
    once: list[BudgetLine] = []
    prices: list[Price | None] = []
    for fitted in build.parts.values():
        price = fitted.use.price or fitted.part.price
        owned = fitted.use.owned if fitted.use.owned is not None else bool(getattr(fitted.part, "owned", False))
        line = _line(
            build,
            fitted.key,
            fitted.part,
            price,
            fitted.count,
            fitted.use.spares,
            fitted.shelf_where.at("price"),
            owned=owned,
        )
        bought_once = isinstance(fitted.part, Tool | GroundGear | Consumable)
        (once if bought_once else own).append(line)
        if not bought_once:
            prices.append(price)
    packs = [
        _line(build, p.key, p.part, p.part.price, p.use.count * p.use.parallel, 0, p.shelf_where.at("price"))
        for p in build.packs.values()
    ]
    prices += [p.part.price for p in build.packs.values()]
    currency = build.site.currency
    postage = _postage(build, prices)
    till = sum_of(currency, [*(x.till for x in own), *(x.till for x in packs), *(m for _, m in postage)])
    return Budget(
        currency,
        tuple(own),
        tuple(packs),
        tuple(once),
        postage,
        sum_of(currency, (x.used for x in own)),
        till,
        sum_of(currency, (x.till for x in packs)),
        sum_of(currency, (x.till for x in once)),
        sum_of(currency, (x.till for x in once if not x.owned)),
        tuple(x.label for x in own if x.used is None),
        build.site.as_of or build.source.revised,
    )
