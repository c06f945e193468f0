"""Prices as figures, so that a sum of money can be opened down to the price that was seen and the
rate of the day.
"""

from collections.abc import Iterable
from dataclasses import replace

from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.sums import total
from builder.compute.formulas.money import inverse_rate, line_price, line_price_abroad
from builder.diagnostics.where import Where
from builder.model.build import Build
from builder.model.site import ExchangeRate
from builder.model.source.part import Price
from builder.model.values.measures import Money


def in_major(money: Money) -> float:
    """An amount in whole units of its currency."""
    return float(money.minor / 10.0**money.digits)


def newest_rate(build: Build, currency: str) -> tuple[int, ExchangeRate] | None:
    """The newest dated rate between a currency and the site's, either way round, with its place in
    the list.
    """
    target = build.site.currency
    numbered = [
        (i, r) for i, r in enumerate(build.site.rates) if {r.from_, r.to} == {currency, target}
    ]
    return max(numbered, key=lambda p: p[1].dated, default=None)


def _slopes(*values: float) -> tuple[float, ...]:
    """Slopes of a line's price as if it were not rounded: a step has no slope of use."""
    price, pieces, sold_in, *rate, _ = values
    by = rate[0] if rate else 1.0
    whole = price * pieces * by / sold_in
    slopes = [
        pieces * by / sold_in,
        price * by / sold_in,
        -whole / sold_in,
        *([whole / by] if rate else []),
        0.0,
    ]
    return tuple(slopes)


_HOME = formula(line_price, _slopes)
_ABROAD = formula(line_price_abroad, _slopes)


def _rate(build: Build, currency: str) -> MaybeFigure:
    found = newest_rate(build, currency)
    target = build.site.currency
    if found is None:
        return Unknown(
            f"site/rates/{currency}", f"Rate of {currency}", (f"rate from {currency} to {target}",)
        )
    index, rate = found
    key = f"site/rates/{rate.from_}-{rate.to}"
    label = f"{rate.to} for one {rate.from_}, {rate.dated.isoformat()}"
    own, where = rate.rate.spread or 0.0, Where("site.yaml", ("rates", index, "rate"))
    read = leaf(key, label, rate.rate.value, "1", own=own, basis="setting", where=where)
    if rate.to == target:
        return read
    return apply(
        f"site/rates/{currency}-{target}",
        f"{target} for one {currency}",
        formula(inverse_rate),
        read,
    )


def price_figure(
    build: Build, key: str, label: str, price: Price | None, pieces: int, at: Where
) -> MaybeFigure:
    """The price of pieces, in the site's currency, rounded once; Unknown without a price or a rate.

    `at` is the price's place; its keys name the leaf, so that a price on the shelf is one leaf for
    all builds.
    """
    amount = (price.each or price.pack) if price is not None else None
    if price is None or amount is None:
        return Unknown(key, label, (f"price of {label}",))
    by_one = price.each is not None
    owner = "shelf" if at.file.startswith("shelf/") else at.file.split("/")[0]
    name = "/".join((owner, *(str(step) for step in at.path)))
    seen = f", seen {price.seen.isoformat()}" if price.seen is not None else ""
    many = "of one" if by_one else f"for {price.sold_in}"
    words = f"Price {many} {label}{seen}"
    read = leaf(name, words, in_major(amount), amount.currency, basis="maker", where=at)
    count = constant(f"{key}/pieces", f"Pieces of {label}", float(pieces), "1")
    sold = constant(
        f"{key}/sold-in",
        "Pieces that the price is for",
        1.0 if by_one else float(price.sold_in),
        "1",
    )
    currency = build.site.currency
    coin = Money(1, currency)
    step = constant(
        f"currency/{currency}/step",
        f"Smallest coin of {currency}",
        in_major(coin),
        currency,
        "ISO 4217",
    )
    if amount.currency == currency:
        made = apply(key, label, _HOME, read, count, sold, step)
    else:
        made = apply(key, label, _ABROAD, read, count, sold, _rate(build, amount.currency), step)
    return replace(made, unit=currency) if isinstance(made, Figure) else made


def as_money(figure: MaybeFigure, currency: str) -> Money | None:
    """A price in whole minor units; None where it is not known. The figure was rounded to a coin
    already.
    """
    if isinstance(figure, Unknown):
        return None
    return Money(round(figure.value * 10 ** Money(0, currency).digits), currency)


def price_total(build: Build, key: str, label: str, parts: Iterable[MaybeFigure]) -> Figure:
    """A sum of money in the site's currency."""
    return total(f"{build.name}/budget/{key}", label, build.site.currency, parts)
