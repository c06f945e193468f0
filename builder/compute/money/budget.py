"""Money: what this build costs, what you pay, what is bought once. Whole minor
units throughout.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from urllib.parse import urlsplit

from builder.compute.figures.figure import Figure, MaybeFigure, Unknown
from builder.compute.money.price_figures import as_money, price_figure, price_total
from builder.diagnostics.where import Where
from builder.model.build import Build
from builder.model.kinds import Consumable, GroundGear, Part, Tool
from builder.model.source.part import Price
from builder.model.values.money_text import Money

UNNAMED_SHOP = "unnamed shop"


@dataclass(frozen=True, eq=False)
class BudgetLine:
    """One part's money: `used` for the pieces in the build, `till` for whole purchases with spares.

    Both in the site's currency and rounded once; None where no price is known or no rate leads to
    the currency. `each` is the price as it was seen: for one piece, or (`by_pack`) for a bag of
    `sold_in`.
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
    used_figure: MaybeFigure
    till_figure: MaybeFigure
    owned: bool = False
    by_pack: bool = False
    shop: str = ""


@dataclass(frozen=True, eq=False)
class Budget:
    """The money tables: this build, packs, and what is bought once, each with its total, kept
    apart.

    `postage` is counted once a shop. Totals leave unknown prices out; `lacks` names them.
    """

    currency: str
    lines: tuple[BudgetLine, ...]
    packs: tuple[BudgetLine, ...]
    once: tuple[BudgetLine, ...]
    postage: tuple[tuple[str, Figure], ...]
    this_build: Money
    at_the_till: Money
    packs_total: Money
    once_total: Money
    once_to_buy: Money
    lacks: tuple[str, ...]
    as_of: date | None
    figures: Mapping[str, Figure]


def _shop_of(price: Price | None) -> str:
    """The shop's name, else the host of the link; '' where neither is said."""
    if price is None:
        return ""
    return price.shop or urlsplit(price.link or "").hostname or ""


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
    used = price_figure(build, f"{build.name}/price/{key}", part.name, price, count, where)
    till = price_figure(
        build, f"{build.name}/till/{key}", part.name, price, purchases * sold_in, where
    )
    as_of = build.site.as_of or build.source.revised
    seen = price.seen if price is not None else None
    age = (as_of - seen).days if as_of is not None and seen is not None else None
    limit = build.site.price_age.value / 86400 if build.site.price_age is not None else None
    stale = age is not None and limit is not None and age > limit
    asked, whole, link, paid = None, False, "", False
    if price is not None:
        asked, whole = price.each or price.pack, price.each is None
        link, paid = price.link or "", price.paid_link
    lacking = ", ".join(used.missing) if isinstance(used, Unknown) else ""
    return BudgetLine(
        key,
        part.name,
        count,
        spares,
        asked,
        as_money(used, build.site.currency),
        as_money(till, build.site.currency),
        purchases,
        sold_in,
        seen,
        age,
        stale,
        link,
        paid,
        lacking,
        where,
        used,
        till,
        owned,
        whole,
        _shop_of(price),
    )


def _postage(
    build: Build, prices: Iterable[tuple[Price | None, Where]]
) -> tuple[tuple[str, Figure], ...]:
    """The dearest postage of each shop, once."""
    by_shop: dict[str, Figure] = {}
    for price, where in prices:
        if price is None or price.postage is None:
            continue
        shop = _shop_of(price) or UNNAMED_SHOP
        once = Price(each=price.postage)
        key = f"{build.name}/postage/{shop}"
        made = price_figure(build, key, f"Postage, {shop}", once, 1, where.at("postage"))
        if isinstance(made, Figure) and (shop not in by_shop or made.value > by_shop[shop].value):
            by_shop[shop] = made
    return tuple(sorted(by_shop.items()))


def _part_lines(
    build: Build,
) -> tuple[list[BudgetLine], list[BudgetLine], list[tuple[Price | None, Where]]]:
    """Lines of what flies, lines of what is bought once, and the prices that postage is asked of."""
    own: list[BudgetLine] = []
    once: list[BudgetLine] = []
    prices: list[tuple[Price | None, Where]] = []
    for f in build.parts.values():
        price = f.use.price or f.part.price
        where = f.where.at("price") if f.use.price is not None else f.shelf_where.at("price")
        owned = f.use.owned if f.use.owned is not None else bool(getattr(f.part, "owned", False))
        line = _line(build, f.key, f.part, price, f.count, f.use.spares, where, owned=owned)
        bought_once = isinstance(f.part, Tool | GroundGear | Consumable)
        (once if bought_once else own).append(line)
        if not (bought_once and owned):
            prices.append((price, where))
    return own, once, prices


def budget(build: Build) -> Budget:
    """The money of a build."""
    own, once, prices = _part_lines(build)
    packs = []
    for p in build.packs.values():
        where = p.shelf_where.at("price")
        count = p.pieces
        packs.append(_line(build, f"pack-{p.key}", p.part, p.part.price, count, 0, where))
        prices.append((p.part.price, where))
    currency = build.site.currency
    postage = _postage(build, prices)
    used = [x.used_figure for x in own]
    of_own, of_packs, of_once = ([x.till_figure for x in lines] for lines in (own, packs, once))
    not_owned = [x.till_figure for x in once if not x.owned]
    to_pay = [*of_own, *of_packs, *(f for _, f in postage)]
    sums: dict[str, tuple[str, Iterable[MaybeFigure]]] = {
        "this-build": ("What this build costs", used),
        "parts-till": ("Parts on the aircraft, you pay", of_own),
        "till": ("You pay", to_pay),
        "packs": ("Batteries", of_packs),
        "once": ("Bought once", of_once),
        "once-to-buy": ("Bought once, still to buy", not_owned),
        "to-pay": ("You pay in all, with what is bought once", [*to_pay, *not_owned]),
    }
    figures = {key: price_total(build, key, label, of) for key, (label, of) in sums.items()}
    amounts = {
        key: as_money(figure, currency) or Money(0, currency) for key, figure in figures.items()
    }
    lacking = tuple(x.label for x in own if x.used is None)
    as_of = build.site.as_of or build.source.revised
    return Budget(
        currency,
        tuple(own),
        tuple(packs),
        tuple(once),
        postage,
        amounts["this-build"],
        amounts["till"],
        amounts["packs"],
        amounts["once"],
        amounts["once-to-buy"],
        lacking,
        as_of,
        figures,
    )
