"""A small part that costs forty times what its like do.

Checks: the price of one screw, nut, washer, post or mount against the middle price of the others in the
build. At least three others have to have one.
Why: a price of a bag that stands for one piece, or a point that slipped, is multiplied by sixteen screws.
Example: a screw of 6.00 EUR among screws of 0.06 EUR.
Mend: check the point. For a bag, write its price as such, and how many are in it (`sold_in`).
Source: common practice, no source
"""

from collections.abc import Iterator, Mapping
from statistics import median

from builder.compute.figures.figure import Figure
from builder.compute.money.price_figures import price_figure
from builder.diagnostics.finding import Severity
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import Build
from builder.model.kinds import Hardware
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.say import made, say

SEVERITY = Severity.REMARK
_APART = assumed("money/price-apart")
_OTHERS = assumed("money/price-others")
_SMALL = ("screw", "nut", "washer", "post", "spacer", "soft mount", "grommet")


def _prices(build: Build) -> Mapping[str, tuple[Figure, Where]]:
    """The price of one piece of each small part, in the site's currency, by its name on the shelf."""
    out: dict[str, tuple[Figure, Where]] = {}
    for fitted in build.of_kind(Hardware):
        price, at = fitted.part.price, fitted.shelf_where.at("price")
        if fitted.part.form not in _SMALL or fitted.use.price is not None:
            continue
        key = f"{build.name}/small-parts/{fitted.shelf}"
        # Of a hundred, so that rounding to a coin does not tell.
        hundred = price_figure(build, key, fitted.part.name, price, 100, at)
        if isinstance(hundred, Figure) and hundred.value > 0:
            out[fitted.shelf] = (hundred, at)
    return out


def check(case: Case) -> Iterator[Outcome]:
    prices = _prices(case.build)
    currency = case.build.site.currency
    for shelf, (price, at) in prices.items():
        others = [p.value for name, (p, _) in prices.items() if name != shelf]
        if len(others) < _OTHERS:
            continue
        usual = median(others)
        if price.value <= _APART * usual:
            yield Judged()
            continue
        one, like = made(price.value / 100, currency), made(usual / 100, currency)
        times = made(price.value / usual, "1")
        text = say(
            "One {} costs {} times as much as its like: {}, they {}.", shelf, times, one, like
        )
        hint = "Check the point. A price of a bag is 'pack', with 'sold_in'."
        yield Found(text, hint, at)
