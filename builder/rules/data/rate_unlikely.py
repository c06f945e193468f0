"""An exchange rate with its point in the wrong place, or the wrong way round.

Checks: each exchange rate that a price of the build needs, against what the two currencies were worth for
years. Where one of them is not in that list, against the other rates of its pair. A factor of ten either way is
taken for right.
Why: one such rate makes every price from abroad wrong, and the sum that a copier plans with.
Example: a rate of 92 from USD to EUR, which was 0.92.
Mend: check the point, and which currency stands first.
Source: worth of currencies to a factor of ten (from memory)
"""

from collections.abc import Iterator

from builder.compute.money.price_figures import newest_rate
from builder.diagnostics.finding import Severity
from builder.diagnostics.where import Where
from builder.load.assumed import assumed, assumed_topic
from builder.model.build import Build
from builder.rounding import decimals_for
from builder.rules.data.rate_old import currencies_abroad
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.REMARK
_APART = assumed("money/rate-apart")
_WORTH = assumed_topic("worth of a currency")


def _usual(build: Build, index: int) -> float | None:
    """What the rate should be about: by what both are worth, else as another rate of the pair says."""
    rates = build.site.rates
    one = rates[index]
    if one.from_ in _WORTH and one.to in _WORTH:
        return _WORTH[one.from_][0] / _WORTH[one.to][0]
    for i, other in enumerate(rates):
        if i == index or {other.from_, other.to} != {one.from_, one.to}:
            continue
        same_way = other.from_ == one.from_
        return other.rate.value if same_way else 1.0 / other.rate.value
    return None


def check(case: Case) -> Iterator[Outcome]:
    for currency in currencies_abroad(case.build):
        found = newest_rate(case.build, currency)
        if found is None:
            continue  # the budget says that it lacks the rate
        index, rate = found
        where, pair = Where("site.yaml", ("rates", index, "rate")), f"{rate.from_} to {rate.to}"
        usual = _usual(case.build, index)
        if usual is None:
            yield NotJudged(f"another rate from {pair} to compare with", where)
        elif 1.0 / _APART <= rate.rate.value / usual <= _APART:
            yield Judged()
        else:
            said = given(rate.rate.value, "1")
            about = made(usual, "1", "", decimals_for(usual / _APART))
            text = say("The rate from {} is {}; about {} is usual.", pair, said, about)
            yield Found(text, "Check the point, and which currency stands first.", where)
