"""An exchange rate of long ago.

Checks: the day of each exchange rate that a price of the build needs, counted to as_of. It is compared with the age
that site.yaml allows for prices; where it allows none, with half a year.
Why: rates move by a tenth within months. A total that rests on an old one tells a copier the wrong sum.
Example: a rate of 400 days ago.
Mend: look the rate up again and write its day under dated.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.money.price_figures import newest_rate
from builder.diagnostics.finding import Severity
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import Build
from builder.model.source.build_log import Incident, Maintenance
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.REMARK
_USUAL = assumed("money/rate-age")
_DAY = 86_400


def currencies_abroad(build: Build) -> tuple[str, ...]:
    """Currencies of prices, but for the site's own."""
    prices = [f.use.price or f.part.price for f in build.parts.values()]
    prices += [p.part.price for p in build.packs.values()]
    named = [p.each.currency for p in prices if p is not None and p.each is not None]
    logs: list[Incident | Maintenance] = []
    logs += [*build.source.incidents, *build.source.maintenance]
    named += [line.cost.currency for line in logs if line.cost is not None]
    return tuple(c for c in dict.fromkeys(named) if c != build.site.currency)


def check(case: Case) -> Iterator[Outcome]:
    site = case.build.site
    most = site.price_age.value if site.price_age is not None else _USUAL
    for currency in currencies_abroad(case.build):
        found = newest_rate(case.build, currency)
        if found is None:
            continue  # the budget says that it lacks the rate
        index, rate = found
        where = Where("site.yaml", ("rates", index, "dated"))
        if site.as_of is None:
            yield NotJudged("as_of in site.yaml", where)
            continue
        days = (site.as_of - rate.dated).days
        pair = f"{rate.from_} to {rate.to}"
        if days < 0:
            text = f"The rate from {pair} is of {rate.dated}, and ages count from {site.as_of}."
            yield Found(text, "Correct the day, or set as_of to a later one.", where)
        elif days * _DAY <= most:
            yield Judged()
        else:
            old = given(float(days * _DAY), "s", shown_as=("days", 1 / _DAY, 0))
            text = say("The rate from {} is of {}, {} old.", pair, rate.dated, old)
            yield Found(text, "Look it up again and write its day under dated.", where)
