"""Prices: an amount and its currency."""

from dataclasses import dataclass
from decimal import Decimal
from typing import Annotated, Any

from builder.model.values.mistaken import text_of, wrong
from builder.model.values.price_text import PRICE_PATTERN, amount_and_code
from builder.model.values.quantities import reads, two_readings
from builder.model.values.spellings import TwoReadings

_CURRENCY_DIGITS = {
    "JPY": 0,
    "KRW": 0,
    "CLP": 0,
    "ISK": 0,
    "VND": 0,
    "BHD": 3,
    "KWD": 3,
    "TND": 3,
    "OMR": 3,
    "JOD": 3,
}
_OF_THREE = frozenset(code for code, digits in _CURRENCY_DIGITS.items() if digits == 3)


@dataclass(frozen=True, slots=True)
class Money:
    """An amount in whole minor units of an ISO 4217 currency."""

    minor: int
    currency: str

    @property
    def digits(self) -> int:
        """Decimal places of the currency's minor unit (ISO 4217; two unless listed)."""
        return _CURRENCY_DIGITS.get(self.currency, 2)


def _money(value: Any) -> Money:
    if isinstance(value, Money):
        return value
    given = text_of(value, "a price", "12.50 EUR")
    try:
        found = amount_and_code(given, _OF_THREE)
    except TwoReadings as two:
        raise two_readings(given, repr(two.first), repr(two.second)) from None
    if found is None or not found[1]:
        problem = "has no currency" if found else "cannot be read as a price"
        raise wrong(
            "data/not-a-price",
            f"{given!r} {problem}.",
            "Write amount and ISO 4217 code, like '12.50 EUR'.",
        )
    amount, code = found
    money = Money(0, code)
    minor = Decimal(amount).scaleb(money.digits)
    if minor != minor.to_integral_value():
        problem = f"{given!r} is finer than the smallest unit of {code}."
        raise wrong("data/not-a-price", problem, f"Write at most {money.digits} decimal places.")
    return Money(int(minor), code)


MoneyText = Annotated[Money, reads(_money, "a price", "12.50 EUR", PRICE_PATTERN)]
