"""Rows and their total after rounding: how many decimals make them agree, and what is left for a
line 'rounding'.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from builder.rounding import MINUS, rounded


def shown(value: float, places: int) -> Decimal:
    """The number that a page shows, as an exact decimal."""
    return Decimal(rounded(value, places).replace(MINUS, "-"))


def left_over(rows: Sequence[float], total: float, places: int) -> Decimal:
    """The total shown less the sum of the rows shown."""
    return shown(total, places) - sum((shown(r, places) for r in rows), Decimal(0))


@dataclass(frozen=True)
class SumOfRows:
    """Rows and the total that stands below them, in the unit that is shown."""

    rows: tuple[float, ...]
    total: float


def places_that_add(sums: Sequence[SumOfRows], least: int, most: int) -> int:
    """The fewest decimals with which every total is the sum of its rows as shown; `least` where
    none does.
    """
    for places in range(least, most + 1):
        if all(left_over(s.rows, s.total, places) == 0 for s in sums):
            return places
    return least


def rounding_text(difference: Decimal, places: int) -> str:
    """What a line 'rounding' shows, with its sign."""
    return ("+" if difference > 0 else "") + rounded(float(difference), places)
