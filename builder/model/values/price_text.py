"""How people write prices: amount and currency, in either order, with a code or a sign.

A sign that several currencies share is read only where one of them is meant nearly always; who
counts in another of them is asked (`shared_sign`).
"""

import re
from types import MappingProxyType

from builder.model.values.spellings import TwoReadings, common_signs, decimal_points

_SIGNS = MappingProxyType({"$": "USD", "US$": "USD", "€": "EUR", "£": "GBP"})
# Signs of two currencies or more, of which none is meant nearly always (ISO 4217).
_SHARED = MappingProxyType({"¥": ("JPY", "CNY"), "kr": ("SEK", "DKK")})
# Whose own sign is $ as well: in a workspace that counts in one of them, it may mean that one.
_DOLLARS = frozenset(
    ("ARS", "AUD", "CAD", "CLP", "COP", "HKD", "MXN", "NZD", "SGD", "TWD", "UYU", "BBD", "JMD")
)
_AMOUNT = r"\d[\d.,]*"
_WORD = r"[A-Za-z]{3}|US\$|\$|€|£|¥|kr"
_PRICE = re.compile(rf"(?:({_WORD})\s*)?({_AMOUNT})(?:\s*({_WORD}))?")
_AMOUNT_IN_POINTS = re.compile(r"\d{1,9}(?:\.\d{1,3})?")
PRICE_PATTERN = rf"(?:(?:{_WORD})\s*{_AMOUNT}|{_AMOUNT}\s*(?:{_WORD}))"


def amount_and_code(given: str, three_decimals: frozenset[str]) -> tuple[str, str] | None:
    """The amount with a decimal point and the ISO 4217 code, which is empty where none was written;
    None for what is no price.

    TwoReadings where a sign or a mark between the digits can mean two things. `three_decimals` are
    the currencies whose amounts may have three of them.
    """
    match = _PRICE.fullmatch(common_signs(given))
    if match is None or (match[1] and match[3]):
        return None
    word = match[1] or match[3] or ""
    if word in _SHARED:
        amount = match[2]
        first, second = _SHARED[word]
        raise TwoReadings(f"{amount} {first}", f"{amount} {second}")
    code = _SIGNS.get(word, word.upper())
    try:
        amount = decimal_points(match[2])
    except TwoReadings as two:
        first = two.first if code in three_decimals else two.first.removesuffix("0")
        raise _two(first, two.second, code) from None
    if not _AMOUNT_IN_POINTS.fullmatch(amount):
        return None
    if _may_be_thousands(match[2]) and code not in three_decimals:
        first, second = amount.removesuffix("0"), amount.replace(".", "")
        raise _two(first, second, code)
    return amount, code


def _two(first: str, second: str, code: str) -> TwoReadings:
    """Both amounts, with the code where one was written."""
    behind = f" {code}" if code else ""
    return TwoReadings(first + behind, second + behind)


def _may_be_thousands(amount: str) -> bool:
    """`1.250`: no price has three decimals, but for a few currencies."""
    return re.fullmatch(r"[1-9]\d{0,2}\.\d\d0", amount) is not None


def shared_sign(text: str, currency: str) -> bool:
    """Whether a text is a price in `$` where it may mean the workspace's own currency instead."""
    match = _PRICE.fullmatch(text.strip()) if currency in _DOLLARS else None
    return match is not None and "$" in (match[1], match[3])
