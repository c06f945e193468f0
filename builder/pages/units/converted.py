"""A measure as it is shown, in the reader's other unit: from its text, so that paper and pages say
the same to the digit.

Factors are those of NIST SP 811 (2008), appendix B: an inch, a foot, and the ounce (avoirdupois)
exactly. `templates/static/units.js` does the same for pages in a browser.
"""

from collections.abc import Mapping
from decimal import ROUND_FLOOR, ROUND_HALF_UP, Decimal
from types import MappingProxyType

from builder.frozen import value_class
from builder.rounding import MINUS

_MOST = 4  # decimals of a spread


@value_class(frozen=True, slots=True)
class OtherUnit:
    """What a unit is shown in: a choice of the reader (`oz`, `in`, `degF`) makes `unit` of it.

    `holds` is how many of the unit that is shown here one of the other is, `zero` is added after.
    `more` is how many decimals the other unit needs more to be about as fine: the step of the last
    digit is then 0.25 to 2.8 of what it was. An ounce is weighed in hundredths where a gram is in
    tenths; a length is never coarser than it was, for wires are cut by it.
    """

    choice: str
    unit: str
    holds: Decimal
    more: int
    zero: Decimal = Decimal(0)


OTHER_UNITS: Mapping[str, OtherUnit] = MappingProxyType(
    {
        "g": OtherUnit("oz", "oz", Decimal("28.349523125"), 1),
        "mm": OtherUnit("in", "in", Decimal("25.4"), 2),
        "m": OtherUnit("in", "ft", Decimal("0.3048"), 0),
        "°C": OtherUnit("degF", "°F", Decimal(5) / Decimal(9), 0, Decimal(32)),
    }
)


def other_unit(unit: str, choices: frozenset[str]) -> OtherUnit | None:
    """What a unit is shown in for who chose so; None where it stays."""
    other = OTHER_UNITS.get(unit)
    return other if other is not None and other.choice in choices else None


def _decimals(shown: str) -> int:
    return len(shown.partition(".")[2])


def _plain(shown: str) -> Decimal:
    return Decimal(shown.replace(MINUS, "-"))


def converted(shown: str, other: OtherUnit, *, down: bool = False) -> str:
    """A number as it is shown (`228.7`, `+0.3`, `−2.2`) in the other unit; `down` never shows it
    larger than it is.
    """
    places = _decimals(shown) + other.more
    number = _plain(shown) / other.holds + other.zero
    way = ROUND_FLOOR if down else ROUND_HALF_UP
    made = f"{number.quantize(Decimal(1).scaleb(-places), rounding=way):f}"
    unsigned = made.removeprefix("-")
    if made != unsigned and unsigned.strip("0."):
        return MINUS + unsigned
    return f"+{unsigned}" if shown.startswith("+") else unsigned


def converted_spread(shown: str, other: OtherUnit, least: int = 0) -> str:
    """A spread as it is shown (`0.3`): with the decimals of the number beside it, and with more
    where it would be 0.
    """
    wide = Decimal(shown) / other.holds
    needed = -wide.adjusted() if wide else 0
    places = max(least, _decimals(shown) + other.more, min(needed, _MOST))
    return f"{wide.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP):f}"


def places_of(shown: str, other: OtherUnit) -> int:
    """The decimals of a number in the other unit."""
    return _decimals(shown) + other.more
